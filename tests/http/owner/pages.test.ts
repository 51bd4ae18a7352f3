/** The owner's pages as a browser without script meets them. */
import { describe, expect, it } from "vitest";
import { jobAsItStands } from "../../../src/acts/job.js";
import { withChoices } from "../../../src/estimating/agreement/choices.js";
import { addDays } from "../../../src/estimating/day.js";
import { estimate } from "../../../src/estimating/estimate.js";
import { answersOf } from "../../../src/records/agreements.js";
import { estimates } from "../../../src/records/estimates.js";
import { money } from "../../../src/wording/figures.js";
import { day } from "../../../src/wording/time.js";
import { draftSaved } from "../../records/support/drafts.js";
import { type Seen, visitor, words } from "../support/noScript.js";
import { come, HAND, issued, linkOn, type Story, story, totalOn } from "../support/story.js";

const NAME = "Žofie Kapradinová";
const DAY = 24 * 3_600_000;

/** Ids of the options as the revision has them, and the price of a set by the engine. */
async function optionsOf({ opened, estimateId }: Story) {
  const found = (await estimates.find(opened.db, estimateId))!;
  const input = await estimates.inputOf(opened.db, found);
  return {
    ids: found.sheet!.options.map(({ id }) => id),
    chosen: found.sheet!.options.filter(({ chosen }) => chosen).map(({ id }) => id),
    priceOf: (chosen: readonly string[]): string => {
      const outcome = estimate(withChoices(input, chosen));
      if (!outcome.ok) throw new Error("The demo has problems.");
      return money(outcome.sheet.totals.total, { locale: "en-GB", currency: "GBP" });
    },
    sheet: found.sheet!,
  };
}

it("an owner reads beside the answer what is agreed to besides the price: the shop's terms, and what storage costs", async () => {
  const told = await story();
  const { seen } = await come(told, await issued(told));
  const section = words(/<section id="terms">.*?<\/section>/s.exec(seen.html)![0]);
  for (const text of ["Terms", "Units not collected", "Storage, where it is charged: £1.80 a day, tax included."])
    expect(section).toContain(text);
});

describe("coming in without script", () => {
  it("takes the number and the code of the paper, in small letters and without the dash", async () => {
    const told = await story();
    const { code } = await issued(told);
    const owner = visitor(told.opened);
    const entry = await owner.get("/o");
    const seen = await owner.press(entry, "Open the estimate", {
      number: " j-2026-0001",
      code: code.toLowerCase().replace("-", " "),
    });
    expect(seen.status).toBe(200);
    expect(words(seen.html)).toContain("J-2026-0001, revision 1");
  });

  it("says what is wrong beside the boxes, and keeps the number", async () => {
    const told = await story();
    await issued(told);
    const owner = visitor(told.opened);
    const seen = await owner.press(await owner.get("/o"), "Open the estimate", { number: "J-2026-0001", code: "AAAAA-AAAAA" });
    expect(seen.status).toBe(403);
    expect(seen.html).toContain("<title>Error: ");
    expect(seen.html).toContain('value="J-2026-0001"');
    expect(seen.html).toMatch(/id="wrong" role="alert"/);
  });

  it("sends whoever has no link to the entry", async () => {
    const { opened } = await story();
    expect((await visitor(opened).get("/o/estimate")).path).toBe("/o");
  });
});

describe("the estimate on the owner's page", () => {
  it("shows revision, unit, total, ceiling, validity, deposit, days and the PDF that was issued", async () => {
    const told = await story();
    const { seen } = await come(told, await issued(told));
    const { sheet } = await optionsOf(told);
    const read = words(seen.html);
    const cash = (amount: number) => money(amount, { locale: "en-GB", currency: "GBP" });
    for (const text of [
      "J-2026-0001, revision 1",
      "Estimate for your Quellmarsh Solivane 49",
      "Hum on every voice, several notes missing, strings fade after half an hour.",
      cash(sheet.totals.total),
      cash(sheet.ceiling.amount),
      cash(sheet.deposit.amount),
      cash(sheet.ifDeclined.amount),
      `${sheet.days.total} days`,
      "What we may find",
    ])
      expect(read).toContain(text);
    expect(seen.html).toContain('href="/o/estimate.pdf?revision=1"');
  });

  it("is listed nowhere and kept by no cache", async () => {
    const told = await story();
    const { seen } = await come(told, await issued(told));
    expect(seen.html).toContain('<meta name="robots" content="noindex, nofollow, noarchive"/>');
    expect(seen.headers.get("x-robots-tag")).toContain("noindex");
    expect(seen.headers.get("cache-control")).toContain("no-store");
  });

  it("tells neither what parts cost the shop nor its mark-up, nor any way into the shop", async () => {
    const told = await story();
    const { seen } = await come(told, await issued(told));
    const { sheet } = await optionsOf(told);
    expect(seen.html).not.toMatch(/mark-?up|your cost|catalogue/i);
    const charged = new Set([...sheet.lines, ...sheet.adjustments].map(({ amount }) => amount));
    const costs = sheet.parts.map(({ cost }) => cost).filter((cost) => cost > 0 && !charged.has(cost));
    expect(costs.length).toBeGreaterThan(5);
    for (const cost of costs) expect(words(seen.html)).not.toContain(`\n${money(cost, { locale: "en-GB", currency: "GBP" })}\n`);
    expect(seen.html).not.toMatch(/href="\/(jobs|estimates|rate-book|models|settings|")/);
    expect(seen.html).not.toContain("/assets/intake-");
  });

  it("says of amounts beside those with tax in that they are before tax", async () => {
    const told = await story();
    const { seen } = await come(told, await issued(told));
    expect(words(seen.html)).toContain(
      "The amounts here are before tax: tax, openings and what several works share come on top, as well as: Sundries. Leaving",
    );
    expect(words(seen.html)).toContain("and not in the total; these amounts have all of that in:");
  });

  it("says which charges and discount go with work that is left out", async () => {
    const told = await story();
    const { db } = told.opened;
    const draft = (await jobAsItStands(db, told.jobId))!.draft!;
    const policy = { ...draft.input.policy, rush: true, discount: { percent: 10, reason: "demo" } };
    const input = { ...draft.input, policy };
    await draftSaved(db, draft.id, draft.version, { ...draft, input }, "2026-11-25T11:00:00.000Z");
    const { seen } = await come(told, await issued(told));
    expect(words(seen.html)).toContain(
      "share come on top, as well as: Sundries, Rush charge 30%. Taken off: Discount 10%. Leaving work out",
    );
  });

  it("works out the price of the set that is ticked, never a sum of prices", async () => {
    const told = await story();
    const { owner, seen } = await come(told, await issued(told));
    const { ids, chosen, priceOf } = await optionsOf(told);
    expect(totalOn(seen.html)).toBe(priceOf(chosen));
    for (const set of [[], ids, [ids[1]!]]) {
      const priced = await owner.press(seen, "Work out the price", { chosen: set });
      expect(totalOn(priced.html)).toBe(priceOf(set));
      const ticked = [...priced.html.matchAll(/name="chosen" value="([^"]+)" checked/g)].map(([, id]) => id);
      expect(ticked.sort()).toEqual([...set].sort());
    }
  });

  it("is priced 120 times a minute for one link, counted before; then words, all that was typed, and when to go on", async () => {
    const told = await story();
    const { owner, seen } = await come(told, await issued(told));
    const { ids } = await optionsOf(told);
    const price = () => owner.press(seen, "Work out the price", { chosen: ids, name: NAME });
    expect((await price()).status).toBe(200);
    const { db, pass } = told.opened;
    await db.run("UPDATE sign_in_attempts SET failures = 118");
    const answers = await Promise.all([1, 2, 3, 4, 5].map(price));
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 200, 429, 429, 429]);
    const late = await price();
    expect(words(late.html)).toContain("Nothing you ticked or typed is lost: wait 60 seconds, then try again.");
    expect((await owner.press(late, "Try again")).status).toBe(429);
    expect((await owner.get("/o/estimate")).status).toBe(200);
    const asked = `/o/estimate?revision=1&said=question&chosen=${encodeURIComponent(ids[0]!)}`;
    expect((await owner.get(asked)).status).toBe(429);
    // Another link of the same job has a count of its own.
    const made = await told.desk.press(await told.desk.get(`${told.job}/links`), /make/i, { by: HAND, deliveredTo: "on paper" });
    expect((await (await come(told, linkOn(made))).owner.get(asked)).status).toBe(200);
    pass(60_000);
    const after = await owner.press(late, "Try again");
    expect([after.status, after.html.includes(`value="${NAME}"`)]).toEqual([200, true]);
    expect(totalOn(after.html)).toBe((await optionsOf(told)).priceOf(ids));
  });

  it("keeps the name that was typed while the price is worked out", async () => {
    const told = await story();
    const { owner, seen } = await come(told, await issued(told));
    expect((await owner.press(seen, "Work out the price", { name: NAME })).html).toContain(`value="${NAME}"`);
  });
});

describe("answering", () => {
  it("shows the answer once more with its exact words, and sends nothing before", async () => {
    const told = await story();
    const { owner, seen } = await come(told, await issued(told));
    const { ids, priceOf } = await optionsOf(told);
    const check = await owner.press(seen, /^Agree to/, { chosen: [ids[1]!], name: NAME });
    const read = words(check.html);
    expect(read).toContain("One last look before you send");
    expect(read).toContain(`I agree that it comes to ${priceOf([ids[1]!])}`);
    expect(await answersOf(told.opened.db, told.jobId)).toEqual([]);

    const done = await owner.press(check, /^Agree to/);
    expect(words(done.html)).toContain("Your answer is on record.");
    const [record, ...more] = await answersOf(told.opened.db, told.jobId);
    expect(more).toEqual([]);
    expect(record).toMatchObject({ answer: "agreed", by: NAME, channel: "page", chosen: [ids[1]], struck: [] });
    expect(check.html).toContain(record!.wording);
    expect(words(done.html)).toContain(record!.wording);
  });

  it("goes back with all that was ticked and typed", async () => {
    const told = await story();
    const { owner, seen } = await come(told, await issued(told));
    const { ids } = await optionsOf(told);
    const check = await owner.press(seen, /^Agree to/, { chosen: [ids[1]!], name: NAME });
    const back = await owner.press(check, "Go back and change it");
    expect(back.html).toContain(`value="${NAME}"`);
    expect(back.html).toMatch(new RegExp(`name="chosen" value="${ids[1]}" checked`));
  });

  it("is agreeing in part when work is left out: the ticks stand above the answer, which says how many are left", async () => {
    const told = await story();
    const { owner, seen } = await come(told, await issued(told));
    const all = [...seen.html.matchAll(/name="work" value="([^"]+)" checked/g)].map(([, id]) => id!);
    const [struck, ...kept] = all;
    expect(seen.html.lastIndexOf('name="work"')).toBeLessThan(seen.html.indexOf('id="your-answer"'));
    expect(words(seen.html)).toContain(`all ${all.length} ticked`);
    // With nothing ticked there is nothing to agree to.
    const none = words((await owner.press(seen, "Work out the price", { work: [""] })).html);
    expect(none).toContain(`0 of ${all.length} ticked`);
    expect(none).not.toMatch(/Agree to/);
    expect(none).toMatch(/Decline/);
    const fewer = words((await owner.press(seen, "Work out the price", { work: kept })).html);
    expect(fewer).toContain(`${kept.length} of ${all.length} ticked`);
    expect(fewer).not.toMatch(/all (of it|\d+) (is )?ticked/i);
    const check = await owner.press(seen, /^Agree to/, { work: kept, name: NAME });
    expect(words(check.html)).toContain("Agree in part");
    expect(words(check.html)).toMatch(/Agree to part of the work, for £[\d.]+/);
    const back = await owner.press(check, "Go back and change it");
    expect([...back.html.matchAll(/name="work" value="([^"]+)" checked/g)].map(([, id]) => id)).toEqual(kept);
    await owner.press(check, /^Agree to/);
    expect(await answersOf(told.opened.db, told.jobId)).toMatchObject([{ answer: "part agreed", struck: [struck] }]);
  });

  it("asks for a name, with a way to its box", async () => {
    const told = await story();
    const { owner, seen } = await come(told, await issued(told));
    const refused = await owner.press(seen, /^Agree to/);
    expect(refused.status).toBe(422);
    expect(refused.html).toContain('<a href="#name">');
    expect(refused.html).toMatch(/id="name"[^>]*aria-invalid="true"/);
  });

  it("twice is harmless: the first answer stands, and the page shows it", async () => {
    const told = await story();
    const { owner, seen } = await come(told, await issued(told));
    const check = await owner.press(seen, /^Agree to/, { name: NAME });
    await owner.press(check, /^Agree to/);
    const again = await owner.press(check, /^Agree to/);
    expect(again.status).toBe(200);
    // Another answer from a page that was left open.
    const other = await owner.press(seen, /^Decline/, { name: "Someone Else" });
    expect(other.status).toBe(409);
    expect(words(other.html)).toContain(`By ${NAME}, on this page`);
    expect(await answersOf(told.opened.db, told.jobId)).toMatchObject([{ by: NAME }]);
  });

  it("after another one is on record is not taken, and the page says so beside the figures of the record alone", async () => {
    const told = await story();
    const { owner, seen } = await come(told, await issued(told));
    const { ids, priceOf, chosen } = await optionsOf(told);
    const other = {
      work: [...seen.html.matchAll(/name="work" value="([^"]+)" checked/g)].slice(1).map(([, id]) => id!),
      name: NAME,
    };
    const waiting = await owner.press(seen, /^Agree to/, other);
    const ticked = /agree that it comes to (£[\d.,]+),/.exec(words(waiting.html))![1]!;
    await owner.press(await owner.press(seen, /^Agree to/, { name: NAME }), /^Agree to/);
    const agreed = priceOf(chosen);
    expect(ticked).not.toBe(agreed);
    expect(ids.length).toBeGreaterThan(0);
    const sent: [string, Seen, number][] = [
      ["sent", await owner.press(waiting, /^Agree to/), 409],
      ["looked at once more", await owner.press(seen, /^Agree to/, other), 409],
      ["without a name", await owner.press(seen, /^Agree to/, { ...other, name: "" }), 422],
      ["declined", await owner.press(seen, /^Decline/, other), 409],
    ];
    for (const [how, { status, html }, wanted] of sent) {
      const said = words(html).replaceAll(/\s+/g, " ");
      expect([how, status, totalOn(html)]).toEqual([how, wanted, agreed]);
      expect(said, how).toContain("Your answer was not taken");
      expect(said, how).toContain(`it stands: Agreed. By ${NAME}, on this page, 25 November 2026`);
      expect(said, how).toContain("What was sent now changes nothing.");
      expect(said, how).not.toContain("missing or unclear");
      expect(said, how).not.toContain(ticked);
    }
    // A question from a page that was left open shows the record, too.
    const asked = await owner.press(seen, "Send the question", { ...other, text: "When?" });
    expect(totalOn(asked.html)).toBe(agreed);
    const empty = await owner.press(seen, "Send the question", other);
    expect([empty.status, totalOn(empty.html)]).toEqual([422, agreed]);
    expect(words(empty.html)).toContain("One thing is still missing or unclear");
    expect(await answersOf(told.opened.db, told.jobId)).toHaveLength(1);
  });

  it("can decline, and hears what is owed", async () => {
    const told = await story();
    const { owner, seen } = await come(told, await issued(told));
    const check = await owner.press(seen, /^Decline/, { name: NAME });
    const { sheet } = await optionsOf(told);
    expect(words(check.html)).toContain(money(sheet.ifDeclined.amount, { locale: "en-GB", currency: "GBP" }));
    await owner.press(check, /^Decline/);
    expect(await answersOf(told.opened.db, told.jobId)).toMatchObject([{ answer: "declined" }]);
  });

  it("costs to decline what the revision said, whatever was ticked off before: button, last look and words on record agree", async () => {
    const told = await story();
    const { owner, seen } = await come(told, await issued(told));
    const [kept] = [...seen.html.matchAll(/name="work" value="([^"]+)" checked/g)].map(([, id]) => id!);
    const { ifDeclined } = (await optionsOf(told)).sheet;
    const owed = money(ifDeclined.amount, { locale: "en-GB", currency: "GBP" });
    const fewer = await owner.press(seen, "Work out the price", { work: [kept!], name: NAME });
    const button = `Decline and have it back as it came, and owe ${owed} at most`;
    expect(words(fewer.html)).toContain(button);
    const check = await owner.press(fewer, /^Decline/);
    for (const text of [`${owed} at most`, button, `I owe no more than ${owed}`]) expect(words(check.html)).toContain(text);
  });

  it("with all work left out is declining, and that is said before the last look", async () => {
    const told = await story();
    const { owner, seen } = await come(told, await issued(told));
    const check = await owner.press(seen, /^Agree to/, { work: [""], chosen: [], name: NAME });
    expect(check.status).toBe(422);
    expect(words(check.html)).toContain("All work is left out; that is declining.");
    expect(words(check.html)).not.toContain("One last look");
    expect(check.html).toContain(`value="${NAME}"`);
  });

  it("is never done by looking: no GET leaves a trace", async () => {
    const told = await story();
    const { owner } = await come(told, await issued(told));
    for (const path of [
      "/o",
      "/o/estimate",
      "/o/estimate.pdf",
      "/o/agreement",
      "/o/agreement?answer=agreed&name=x",
      "/o/check",
      "/o/price",
    ])
      await owner.get(path);
    expect(await answersOf(told.opened.db, told.jobId)).toEqual([]);
  });
});

describe("what is not current", () => {
  it("a superseded revision points to the one that took its place, and takes no agreement", async () => {
    const told = await story();
    const { owner, seen } = await come(told, await issued(told));
    const check = await owner.press(seen, /^Agree to/, { name: NAME });
    await told.desk.send(`${told.job}/revisions`, []);
    await issued(told);
    const old = await owner.get("/o/estimate");
    expect(words(old.html)).toContain("Revision 2 has taken the place of this one.");
    expect(old.html).not.toMatch(/>\s*Agree to/);
    const late = await owner.press(check, /^Agree to/);
    expect(late.status).toBe(409);
    // There is no box to lead to.
    expect(late.html).not.toContain('href="#your-answer"');
    expect(await answersOf(told.opened.db, told.jobId)).toEqual([]);
    const [, href] = /href="(\/o\/estimate\?revision=2)"/.exec(old.html)!;
    expect(words((await owner.get(href!)).html)).toContain("What changed since revision 1");
  });

  it("a revision after one that was agreed in part is held against what was agreed, and declining it leaves that", async () => {
    const told = await story();
    const { owner, seen } = await come(told, await issued(told));
    const work = [...seen.html.matchAll(/name="work" value="([^"]+)" checked/g)].map(([, id]) => id!);
    const check = await owner.press(seen, /^Agree to/, { work: work.slice(1), name: NAME });
    const first = await owner.press(check, /^Agree to/);
    const [answer] = await answersOf(told.opened.db, told.jobId);
    const agreed = money(answer!.amount!, { locale: "en-GB", currency: "GBP" });
    expect(agreed).not.toBe(totalOn(seen.html));
    const before = words((await told.desk.get(told.job)).html);
    const paid = await told.desk.get(`${told.job}/payments`);
    await told.desk.press(paid, "Record it", { for: "deposit", amount: "100.00", on: "2026-11-25", how: "cash", by: HAND });
    const form = await told.desk.get(`${told.job}/extra-fault`);
    const FOUND = { reason: "regulator drops out when warm", part: "Voltage regulator", where: "Supply board" };
    await told.desk.press(form, "Add it to a draft of revision 2", FOUND);
    const issue = await told.desk.get(`${told.job}/issue`);
    expect(words(issue.html)).toContain(`instead of the ${agreed} agreed`);
    const draft = await told.desk.get(`/estimates/${(await estimates.ofJob(told.opened.db, told.jobId)).at(-1)!.id}`);
    for (const { html } of [draft, await told.desk.press(draft, "Recalculate")]) {
      expect(words(html)).toContain("Voltage regulator");
      expect(words(html)).not.toContain("If declined after opening");
    }
    const next = await come(told, await issued(told));
    expect(before).toContain("If declined after opening");
    expect(words((await told.desk.get(told.job)).html)).not.toContain("If declined after opening");
    const said = words(next.seen.html);
    expect(said).toContain("What changed since what you agreed to in revision 1");
    expect(said).toContain(`instead of the ${agreed} agreed`);
    expect(said).toContain("£100.00 of it is paid; ");
    expect(said).not.toContain("If you decline");
    const last = await next.owner.press(next.seen, /^Decline revision 2/, { name: NAME });
    expect(words(last.html)).toMatch(new RegExp(`Agreed in revision 1, which stands\\s*${agreed}`));
    expect(words(last.html)).not.toContain("If you decline");
    const done = await next.owner.press(last, /^Decline revision 2/);
    expect(totalOn(done.html)).toBe(agreed);
    expect(words(done.html)).not.toContain("Ready in about");
    expect(first.status).toBe(200);
  });

  it("agreed to after an earlier one no longer has that as what stands", async () => {
    const told = await story();
    const first = await come(told, await issued(told));
    await first.owner.press(await first.owner.press(first.seen, /^Agree to/, { name: NAME }), /^Agree/);
    const form = await told.desk.get(`${told.job}/extra-fault`);
    const FOUND = { reason: "regulator drops out when warm", part: "Voltage regulator", where: "Supply board" };
    await told.desk.press(form, "Add it to a draft of revision 2", FOUND);
    const { owner, seen } = await come(told, await issued(told));
    const stands = "Agreed in revision 1 It stands until you agree to more.";
    const flat = ({ html }: Seen) => words(html).replaceAll(/\s+/g, " ");
    expect(flat(seen)).toContain(stands);
    const done = await owner.press(await owner.press(seen, /^Agree to/, { name: NAME }), /^Agree/);
    expect(flat(done)).toContain("Never more than");
    expect(flat(done)).not.toContain(stands);
  });

  it("tells what an estimate counts as paid until payments are on record, and then those alone", async () => {
    const told = await story();
    const { db } = told.opened;
    const draft = (await estimates.find(db, told.estimateId))!;
    const input = { ...draft.input, policy: { ...draft.input.policy, prepaid: 4200 } };
    expect((await draftSaved(db, draft.id, draft.version, { ...draft, input }, "2026-11-25T09:00:00.000Z")).is).toBe("done");
    const { owner, seen } = await come(told, await issued(told));
    expect(words(seen.html)).toContain("£42.00 is paid already.");
    await owner.press(await owner.press(seen, /^Agree to/, { name: NAME }), /^Agree to/);
    const paid = await told.desk.get(`${told.job}/payments`);
    await told.desk.press(paid, "Record it", { for: "deposit", amount: "100.00", on: "2026-11-25", how: "cash", by: HAND });
    const form = await told.desk.get(`${told.job}/extra-fault`);
    const FOUND = { reason: "regulator drops out when warm", part: "Voltage regulator", where: "Supply board" };
    await told.desk.press(form, "Add it to a draft of revision 2", FOUND);
    const next = words((await come(told, await issued(told))).seen.html);
    expect(next).toContain("Paid so far: £100.00");
    expect(next).not.toContain("£42.00");
    expect(next).not.toMatch(/Due £[\d,.]+ instead/);
  });

  it("past its day it can be declined and no more", async () => {
    const told = await story();
    const { owner } = await come(told, await issued(told));
    told.opened.pass(60 * DAY);
    const seen = await owner.get("/o/estimate");
    expect(words(seen.html)).toContain("This offer ended on");
    expect(seen.html).not.toMatch(/>\s*Agree to/);
    await owner.press(await owner.press(seen, /^Decline/, { name: NAME }), /^Decline/);
    expect(await answersOf(told.opened.db, told.jobId)).toMatchObject([{ answer: "declined" }]);
  });

  it("once it is agreed to tells the day it should be ready, and no more what if not and until when", async () => {
    const told = await story();
    const { owner, seen } = await come(told, await issued(told));
    expect(words(seen.html)).toContain("Good until");
    const { days } = (await optionsOf(told)).sheet;
    const done = words((await owner.press(await owner.press(seen, /^Agree to/, { name: NAME }), /^Agree to/)).html);
    expect(done).toContain(`About ready on ${day(addDays("2026-11-25", days.total), "en-GB")}.`);
    for (const settled of ["Good until", "If you decline"]) expect(done).not.toContain(settled);
  });

  it("once it is declined offers nothing any more, and its figures are told as what was offered", async () => {
    const told = await story();
    const { owner, seen } = await come(told, await issued(told));
    expect(words(seen.html)).toContain("What we may find");
    const done = words((await owner.press(await owner.press(seen, /^Decline/, { name: NAME }), /^Decline/)).html);
    for (const offered of ["What we may find", "Your choice", "Worth doing while it is open"])
      expect(done).not.toContain(offered);
    expect(done).toContain("How this estimate added up");
  });

  it("sent from a page of another estimate than was opened last sends nothing, and says which one this is", async () => {
    const told = await story();
    const { owner, seen } = await come(told, await issued(told));
    const other = seen.html.replaceAll(/name="hash" value="[^"]+"/g, `name="hash" value="${"0".repeat(64)}"`);
    const sent = await owner.press({ ...seen, html: other }, /^Agree to/, { name: NAME });
    expect([sent.status, sent.path]).toEqual([200, "/o/estimate?said=other"]);
    expect(words(sent.html)).toContain("Nothing was sent. Another estimate was opened in this browser meanwhile");
    expect(await answersOf(told.opened.db, told.jobId)).toEqual([]);
  });

  it("an expired link is gone, and says since when and what is current", async () => {
    const told = await story();
    const { owner } = await come(told, await issued(told));
    told.opened.pass(91 * DAY);
    const seen = await owner.get("/o/estimate");
    expect(seen.status).toBe(410);
    expect(words(seen.html)).toContain("This link has ended");
    expect(words(seen.html)).toContain("J-2026-0001, revision 1");
  });

  it("a withdrawn link is gone for those who came in by it, too", async () => {
    const told = await story();
    const link = await issued(told);
    const { owner } = await come(told, link);
    const links = await told.desk.get(`${told.job}/links`);
    const [, path] = new RegExp(`href="(${told.job}/links/[^"]+/withdrawal)"`).exec(links.html)!;
    const done = await told.desk.press(await told.desk.get(path!), "Withdraw it for good", {
      by: HAND,
      reason: "went to the wrong person",
    });
    expect(words(done.html)).toContain("The link is withdrawn.");
    expect((await owner.get("/o/estimate")).status).toBe(410);
    expect((await visitor(told.opened).send("/o/entry", [["link", link.fragment]])).status).toBe(410);
  });
});

describe("questions", () => {
  it("leave ticks and name as they are, and answer nothing", async () => {
    const told = await story();
    const { owner, seen } = await come(told, await issued(told));
    const [struck, ...kept] = [...seen.html.matchAll(/name="work" value="([^"]+)" checked/g)].map(([, id]) => id!);
    const { ids } = await optionsOf(told);
    const filled = { work: kept, chosen: [ids[1]!], name: NAME, text: "How long?" };
    const asked = await owner.press(seen, "Send the question", filled);
    expect(words(asked.html)).toContain("Your question is with us.");
    const board = words((await told.desk.get("/")).html).replaceAll(/\s+/g, " ");
    expect(board).toContain("Reply to a question ; the offer ends 25 December 2026");
    expect(asked.html).toContain(`value="${NAME}"`);
    expect(asked.html).toMatch(new RegExp(`name="chosen" value="${ids[1]}" checked`));
    expect(asked.html).toContain(`name="work" value="${struck}"`);
    expect(asked.html).not.toContain(`name="work" value="${struck}" checked`);
    // The page stands at an address of its own, so that going back or reading it anew sends nothing; the name is in no address.
    const anew = await owner.get(asked.path);
    expect(words(anew.html)).toBe(words(asked.html));
    expect(decodeURIComponent(asked.path)).not.toContain(NAME);
    // Sent again, it is the question that is open.
    await owner.press(seen, "Send the question", filled);
    expect(words((await owner.get("/o/estimate")).html).match(/How long\?/g)).toHaveLength(1);
    expect(await answersOf(told.opened.db, told.jobId)).toEqual([]);
  });

  it("typed and not sent stay in their box while the answer is sent, or gone back from", async () => {
    const told = await story();
    const { owner, seen } = await come(told, await issued(told));
    const half = "And could you\nalso look at";
    const check = await owner.press(seen, /^Agree to/, { name: NAME, text: half });
    const box = (html: string) => /<textarea id="question"[^>]*>([^<]*)</.exec(html)?.[1];
    expect(box((await owner.press(check, "Go back and change it")).html)).toBe(half);
    const done = await owner.press(check, /^Agree/);
    expect([done.status, box(done.html)]).toEqual([200, half]);
    expect(words(done.html)).toContain("Your answer is on record");
    expect(await answersOf(told.opened.db, told.jobId)).toHaveLength(1);
    const { questions } = (await jobAsItStands(told.opened.db, told.jobId))!;
    expect(questions).toEqual([]);
  });

  it("are answered on the same page", async () => {
    const told = await story();
    const { owner, seen } = await come(told, await issued(told));
    await owner.press(seen, "Send the question", { text: "Is the regulator\noriginal & sound?" });
    const desk = await told.desk.get(`${told.job}/answers`);
    expect(words(desk.html)).toContain("original & sound?");
    await told.desk.press(desk, "Send the reply", { text: "It is.", by: HAND });
    const { html } = await owner.get("/o/estimate");
    expect(words(html)).toContain(`${HAND} replied`);
    expect(words(html)).toContain("It is.");
  });

  it("are not sent empty", async () => {
    const told = await story();
    const { owner, seen } = await come(told, await issued(told));
    const refused = await owner.press(seen, "Send the question");
    expect(refused.status).toBe(422);
    expect(refused.html).toContain('<a href="#question">');
  });
});
