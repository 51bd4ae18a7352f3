/** The shop's side of a revision, by the pages alone and without script: issue, extra fault, answers, work log, links, trail. */
import { sql } from "drizzle-orm";
import { describe, expect, it } from "vitest";
import { answersOf } from "../../../src/records/agreements.js";
import { estimates } from "../../../src/records/estimates.js";
import { eventsOf } from "../../../src/records/trail.js";
import { entriesOf } from "../../../src/records/workLog.js";
import { money } from "../../../src/wording/figures.js";
import { draftSaved } from "../../records/support/drafts.js";
import { byTime } from "../support/agreedShop.js";
import { type Seen, words } from "../support/noScript.js";
import { come, HAND, issued, linkOn, type Story, story } from "../support/story.js";

const NAME = "Žofie Kapradinová";

/** The draft with something changed, as another person would save it. */
async function changeDraft({ opened, estimateId }: Story, change: (input: object) => object): Promise<void> {
  const found = (await estimates.find(opened.db, estimateId))!;
  const { jobId, rateBookId, rateBookVersion, input } = found;
  const value = { jobId, rateBookId, rateBookVersion, input: change(input) as typeof input };
  const answer = await draftSaved(opened.db, estimateId, found.version, value, "2026-11-25T09:30:00.000Z");
  expect(answer.is).toBe("done");
}

async function agreedOnPage(told: Story, choose?: readonly string[]) {
  const { owner, seen } = await come(told, await issued(told));
  const check = await owner.press(seen, /^Agree to/, { name: NAME, ...(choose && { chosen: choose }) });
  await owner.press(check, /^Agree to/);
}

describe("a job's page", () => {
  const filled = (html: string) =>
    [...html.matchAll(/<(?:a class="button primary"[^>]*|button type="submit" class="primary")>([^<]+)</g)].map(
      ([, text]) => text,
    );

  it("has one filled button, which does what the list of jobs says is next, beside state and money", async () => {
    const told = await story();
    const at = async () => (await told.desk.get(told.job)).html;
    const draft = await at();
    expect(filled(draft)).toEqual(["Issue revision 1"]);
    expect(words(draft)).toMatch(/draft\s+£1,023\.02\s+so far/);
    const { owner, seen } = await come(told, await issued(told));
    expect(filled(await at())).toEqual(["Record an answer"]);
    expect(words(await at())).toMatch(/with the owner\s+£1,023\.02\s+offered/);
    await owner.press(await owner.press(seen, /^Agree to/, { name: NAME }), /^Agree to/);
    expect(filled(await at())).toEqual(["Take the deposit"]);
    expect(words(await at())).not.toContain("Record an answer");
    const answers = await told.desk.get(`${told.job}/answers`);
    const [, correcting] = /href="([^"]+corrects=[^"]+)#record"/.exec(answers.html)!;
    expect(words((await told.desk.get(correcting!)).html)).toContain("An owner who takes the agreement back declines here.");
    expect(words(await at())).toMatch(/waiting for parts\s+£1,023\.02\s+agreed/);
    expect(words((await told.desk.get("/")).html)).toMatch(/waiting for parts\s+Take the deposit/);
  });
});

describe("issuing from the job", () => {
  it("shows the link once, on a page that is not kept, and says what the job waits for", async () => {
    const told = await story();
    const page = await told.desk.press(await told.desk.get(`${told.job}/issue`), "Issue revision 1", { by: HAND });
    expect(page.headers.get("cache-control")).toContain("no-store");
    const { fragment, code } = linkOn(page);
    for (const path of [told.job, `${told.job}/links`, `${told.job}/answers`, `${told.job}/trail`]) {
      const { html } = await told.desk.get(path);
      expect(html).not.toContain(fragment.split(".")[1]);
      expect(html).not.toContain(code);
    }
    const job = words((await told.desk.get(told.job)).html);
    expect(job).toContain("Revision 1 was issued by Tamsin Oakhollow");
    expect(job).toContain("The owner has not answered yet");
  });

  it("names each field that the agreement profile misses, with the way to it, and offers no button", async () => {
    const told = await story();
    await changeDraft(told, (input) => ({ ...input, policy: { profile: "us-ca" } }));
    const { html } = await told.desk.get(`${told.job}/issue`);
    expect(html).toMatch(
      /href="\/settings#registration">California: electronic set repair asks for the shop&#39;s registration number/,
    );
    expect(html).not.toContain('<button type="submit" class="primary">');
  });

  it("is refused by the same rule when the profile was changed after the page was opened", async () => {
    const told = await story();
    const page = await told.desk.get(`${told.job}/issue`);
    await changeDraft(told, (input) => ({ ...input, policy: { profile: "us-ca" } }));
    const refused = await told.desk.press(page, "Issue revision 1", { by: HAND });
    expect(refused.status).toBe(409);
    expect(words(refused.html)).toContain("Someone else changed the draft meanwhile.");
    expect(words(refused.html)).toContain("registration number");
    expect((await estimates.find(told.opened.db, told.estimateId))!.issuedAt).toBeUndefined();
  });

  it("asks why work was dropped or corrected, and tells the owner", async () => {
    const told = await story();
    await agreedOnPage(told);
    await told.desk.send(`${told.job}/revisions`, []);
    const draft = (await estimates.ofJob(told.opened.db, told.jobId)).at(-1)!;
    const [gone, ...kept] = draft.input.items;
    const [counted] = kept.filter(({ count }) => count > 1);
    const items = kept.map((item) => (item === counted ? { ...item, count: item.count + 1 } : item));
    await changeDraft({ ...told, estimateId: draft.id }, (input) => ({ ...input, items }));
    const page = await told.desk.get(`${told.job}/issue`);
    const asked = [...page.html.matchAll(/name="(why\.\d)\.item" value="([^"]+)"/g)].map(([, row, item]) => [
      `${row}.reason`,
      item!,
    ]);
    expect(asked.map(([, item]) => item)).toEqual([counted!.id, gone!.id]);
    const [first, second] = asked.map(([name]) => name!);
    const why = { [first!]: "one more was found", [second!]: "the board is sound" };
    const link = linkOn(await told.desk.press(page, "Issue revision 2", { by: HAND, ...why }));
    const { seen } = await come(told, link);
    for (const text of Object.values(why)) expect(words(seen.html)).toContain(text);
  });

  it("asks for a name, and keeps what was typed", async () => {
    const told = await story();
    const refused = await told.desk.press(await told.desk.get(`${told.job}/issue`), "Issue revision 1", {
      deliveredTo: "by hand",
    });
    expect(refused.status).toBe(422);
    expect(refused.html).toContain('<a href="#by">');
    expect(refused.html).toContain('value="by hand"');
  });

  it("says where the link is when the button was pressed twice", async () => {
    const told = await story();
    const page = await told.desk.get(`${told.job}/issue`);
    await told.desk.press(page, "Issue revision 1", { by: HAND });
    const again = await told.desk.press(page, "Issue revision 1", { by: HAND });
    expect(again.status).toBe(409);
    expect(words(again.html)).toContain("Its PDF carries the owner's link");
  });

  it("is not offered for an offer that has ended before it goes out", async () => {
    const told = await story();
    told.opened.pass(45 * 24 * 3_600_000);
    const { html } = await told.desk.get(`${told.job}/issue`);
    expect(words(html)).toContain("before it is issued; read the prices as of today.");
  });
});

describe("an extra fault", () => {
  const FOUND = { reason: "regulator drops out when warm", part: "Voltage regulator", where: "Supply board" };
  const price = (html: string) =>
    [...html.matchAll(/<tr><th scope="row">(?:Now|At).*?<td class="figure">(?:<strong>)?(?:from )?\+?£([\d.,]+)/gs)].map(
      ([, amount]) => Number(amount!.replaceAll(",", "")),
    );

  it("costs less now than at a later visit, and changes nothing by being priced", async () => {
    const told = await story();
    await issued(told);
    const seen = await told.desk.press(await told.desk.get(`${told.job}/extra-fault`), "See what it costs", FOUND);
    const [now, later] = price(seen.html);
    expect(now).toBeGreaterThan(0);
    expect(later).toBeGreaterThan(now!);
    expect(await estimates.ofJob(told.opened.db, told.jobId)).toHaveLength(1);
  });

  it("makes the next revision, which says what changed and why", async () => {
    const told = await story();
    await agreedOnPage(told);
    const form = await told.desk.get(`${told.job}/extra-fault`);
    expect(words(form.html).replaceAll(/\s+/g, " ")).toContain(
      "What is agreed to goes on up to its limit; only what is added here waits for the owner's answer.",
    );
    const job = await told.desk.press(form, "Add it to a draft of revision 2", FOUND);
    const read = words(job.html);
    expect(read).toContain("Added to the draft.");
    expect(read).toContain("Not agreed, so not to be worked on:");
    expect(read).toContain("Faults found since");
    expect(read).toContain("regulator drops out when warm");
    const [first, second] = await estimates.ofJob(told.opened.db, told.jobId);
    expect(second!.input.items).toHaveLength(first!.input.items.length + 1);
    expect(second!.input.items.at(-1)).toMatchObject({
      operation: "replace",
      count: 1,
      certainty: { is: "planned" },
      reason: FOUND.reason,
    });
    expect(second!.input.paperwork).toBeUndefined();
    const page = await told.desk.get(`${told.job}/issue`);
    expect(words(page.html)).toContain("What changes since what was agreed in revision 1");
    linkOn(await told.desk.press(page, "Issue revision 2", { by: HAND }));
  });

  it("goes into the draft that is open already", async () => {
    const told = await story();
    await issued(told);
    const form = await told.desk.get(`${told.job}/extra-fault`);
    await told.desk.press(form, "Add it to a draft of revision 2", FOUND);
    const next = await told.desk.get(`${told.job}/extra-fault`);
    await told.desk.press(next, "Add it to the draft of revision 2", { reason: "dirty", work: "Clean a board" });
    const drafts = (await estimates.ofJob(told.opened.db, told.jobId)).filter(({ issuedAt }) => !issuedAt);
    expect(drafts).toHaveLength(1);
    expect(new Set(drafts[0]!.input.items.map(({ id }) => id)).size).toBe(drafts[0]!.input.items.length);
  });

  it("names what cannot be read beside its field, with everything typed kept", async () => {
    const told = await story();
    await issued(told);
    const form = await told.desk.get(`${told.job}/extra-fault`);
    const refused = await told.desk.press(form, "Add it and go on to issue revision 2", {
      ...FOUND,
      part: "flux capacitor",
      count: "two",
    });
    expect(refused.status).toBe(422);
    for (const field of ["part", "count"]) expect(refused.html).toContain(`<a href="#${field}">`);
    expect(refused.html).toContain(`value="${FOUND.reason}"`);
    const negative = await told.desk.press(form, "See what it costs", { ...FOUND, count: "-3" });
    expect(words(negative.html)).toContain("Count is -3; give at least 1.");
    const chance = await told.desk.press(form, "See what it costs", { ...FOUND, certainty: "if found", chance: "120" });
    expect(chance.html).toContain('<a href="#chance">');
    // Its box is hidden then, so what stands in it is no reason to refuse.
    const needed = await told.desk.press(chance, "See what it costs", { certainty: "planned" });
    expect(words(needed.html)).toContain("What it costs");
    const silent = await told.desk.press(form, "See what it costs", {});
    for (const field of ["reason", "work"]) expect(silent.html).toContain(`<a href="#${field}">`);
  });

  it("is not added on top of what somebody else changed meanwhile, but shown with its price there", async () => {
    const told = await story();
    await issued(told);
    const form = await told.desk.get(`${told.job}/extra-fault`);
    await told.desk.press(form, "Add it to a draft of revision 2", FOUND);
    const late = await told.desk.press(form, "Add it to a draft of revision 2", { reason: "dirty", work: "Clean a board" });
    expect(late.status).toBe(409);
    expect(words(late.html)).toContain("Someone else changed the estimate meanwhile.");
    const added = await told.desk.press(late, "Add it to the draft of revision 2");
    expect(words(added.html)).toContain("Added to the draft.");
  });

  it("on no list is sent to its own words, which open for it", async () => {
    const told = await story();
    await issued(told);
    const form = await told.desk.get(`${told.job}/extra-fault`);
    const refused = await told.desk.press(form, "See what it costs", { reason: "dead", part: "Voice chip of our own" });
    expect(words(refused.html)).toContain("is not on a list: say it in your own words, with what it costs");
    expect(refused.html).toMatch(/id="own-words" open/);
  });

  it("is not charged for opening what stands open", async () => {
    const told = await story(1);
    await changeDraft(told, (input) => ({ ...input, items: (input as { items: object[] }).items.slice(0, 1) }));
    await issued(told);
    const form = await told.desk.get(`${told.job}/extra-fault`);
    const closed = [...form.html.matchAll(/name="open" value="([^"]+)"[^>]*>\s*<label[^>]*>([^<]+)</g)];
    const [, id, name] = closed.at(-1)!;
    // Enough of it to pass the minimum charge either way.
    const ask = { reason: "dirty", work: "Clean a board", where: name!, count: "20" };
    const [shut] = price((await told.desk.press(form, "See what it costs", ask)).html);
    const [open] = price(
      (await told.desk.press(form, "See what it costs", { ...ask, open: closed.map(([, each]) => each!) })).html,
    );
    expect(id).toBeDefined();
    expect(open).toBeLessThan(shut!);
  });
});

describe("an answer given elsewhere than on the page", () => {
  it("by telephone is who, when, how, what was agreed and at what amount; the amount is held against what is ticked", async () => {
    const told = await story();
    await issued(told);
    const form = await told.desk.get(`${told.job}/answers`);
    const total = /the total is <strong>£([^<]+)</.exec(form.html)![1]!;
    expect(form.html).not.toContain("Number called");
    const said = { by: NAME, recordedBy: HAND, channel: "telephone" };
    const refused = await told.desk.press(form, /^Record: agreed/, said);
    expect(refused.status).toBe(422);
    expect(refused.html).toContain('<a href="#amount">');
    const other = await told.desk.press(form, /^Record: agreed/, { ...said, amount: "12" });
    expect(words(other.html)).toContain(`What is ticked comes to £${total}, tax included`);

    const done = await told.desk.press(other, "Record: agreed to what is ticked", { amount: total });
    expect(words(done.html)).toContain("The answer is on record.");
    const [record] = await answersOf(told.opened.db, told.jobId);
    expect(record).toMatchObject({
      ...{ answer: "agreed", channel: "telephone", by: NAME, recordedBy: HAND },
      spoken: { authoriser: NAME, receiver: HAND, date: "2026-11-25", time: "09:00" },
    });
    expect(words(done.html)).toContain("Name of the person who took the agreement");
  });

  it("is in part once a tick is taken away, at the amount of the rest", async () => {
    const told = await story();
    await issued(told);
    const form = await told.desk.get(`${told.job}/answers`);
    const [struck, ...kept] = [...form.html.matchAll(/name="work" value="([^"]+)" checked/g)].map(([, id]) => id!);
    const rest = await told.desk.press(form, "Work out the price", { work: kept });
    const total = /the total is <strong>£([^<]+)</.exec(rest.html)![1]!;
    await told.desk.press(rest, "Record: agreed to what is ticked", {
      ...{ by: NAME, recordedBy: HAND, channel: "telephone", amount: total },
    });
    expect(await answersOf(told.opened.db, told.jobId)).toMatchObject([{ answer: "part agreed", struck: [struck] }]);
  });

  it("to a revision that comes to no more says so, in place of nothing on top", async () => {
    const told = await story();
    await agreedOnPage(told);
    await told.desk.send(`${told.job}/revisions`, []);
    await issued(told);
    const read = words((await told.desk.get(`${told.job}/answers`)).html);
    expect(read).toContain(", no more than what is agreed already");
    expect(read).not.toContain("£0.00");
  });

  it("in writing says which writing", async () => {
    const told = await story();
    await issued(told);
    const form = await told.desk.get(`${told.job}/answers`);
    const said = { by: NAME, recordedBy: HAND, channel: "in person" };
    expect((await told.desk.press(form, /^Record: agreed/, said)).html).toContain("The amount the owner agreed to is missing");
    await told.desk.press(form, /^Record: agreed/, { ...said, writing: "the estimate, signed at the counter" });
    expect(await answersOf(told.opened.db, told.jobId)).toMatchObject([
      { channel: "in person", writing: "the estimate, signed at the counter" },
    ]);
  });

  it("is corrected by a new record, and the old one stays readable", async () => {
    const told = await story();
    await issued(told);
    const said = { by: NAME, recordedBy: HAND, channel: "in person", writing: "the estimate, signed" };
    const first = await told.desk.press(await told.desk.get(`${told.job}/answers`), /^Record: agreed/, said);
    expect(first.html).not.toContain("Record: agreed");
    const [, path] = /href="([^"]+corrects=[^"#]+)#record"/.exec(first.html)!;
    const form = await told.desk.get(path!);
    const mute = await told.desk.press(form, "Record: declined", said);
    expect(mute.html).toContain('<a href="#reason">');
    const done = await told.desk.press(form, "Record: declined", { ...said, reason: "misheard" });
    expect(words(done.html)).toContain("corrected since");
    expect(await answersOf(told.opened.db, told.jobId)).toMatchObject([
      { answer: "agreed" },
      { answer: "declined", reason: "misheard" },
    ]);
    const trail = words((await told.desk.get(`${told.job}/trail`)).html);
    const amount = (await answersOf(told.opened.db, told.jobId))[0]!.amount;
    expect(trail).toContain(
      `The answer to revision 1 was corrected: agreed for ${money(amount!, { locale: "en-GB", currency: "GBP" })} by ${NAME} became declined by ${NAME}, put on record by ${HAND}, because: misheard.`,
    );
  });
});

describe("when a spoken answer was given", () => {
  it("is told as it was said, on every page, beside when it was put on record; a correction asks for it anew", async () => {
    const told = await story();
    const link = await issued(told);
    const form = await told.desk.get(`${told.job}/answers`);
    const amount = /the total is <strong>£([^<]+)</.exec(form.html)![1]!;
    const said = { by: NAME, recordedBy: HAND, channel: "telephone", amount };
    const first = await told.desk.press(form, /^Record: agreed/, said);
    const [, path] = /href="([^"]+corrects=[^"#]+)#record"/.exec(first.html)!;
    const again = await told.desk.get(path!);
    const why = { ...said, reason: "the time was mistaken" };
    const undated = await told.desk.press(again, /^Record: agreed/, why);
    expect([undated.status, words(undated.html)]).toEqual([422, expect.stringContaining("Date of the answer is missing")]);
    const early = { "spoken.date": "2026-11-25", "spoken.time": "08:20" };
    const spoken = { ...early, "spoken.time": "09:10" };
    told.opened.pass(20 * 60_000);
    const refused = await told.desk.press(again, /^Record: agreed/, { ...why, ...early });
    expect(refused.html).toContain('<a href="#spoken.time">Time of the answer is 08:20, which is before the revision was issued');
    const done = await told.desk.press(again, /^Record: agreed/, { ...why, ...spoken });
    const was = "25 November 2026 at 09:10";
    const flat = ({ html }: Seen) => words(html).replaceAll(/\s+/g, " ");
    expect(flat(done)).toContain(`${NAME}, ${was}, by telephone; put on record by ${HAND}, 25 November 2026 at 09:20 GMT.`);
    expect(flat(await told.desk.get(told.job))).toContain(`${NAME}, ${was}`);
    expect(flat(await told.desk.get(`${told.job}/trail`))).toContain(`by ${NAME}, said ${was}, put on record by ${HAND}`);
    expect(flat((await come(told, link)).seen)).toContain(was);
  });
});

describe("the work log", () => {
  const ENTRY = { minutes: "30", person: HAND };

  it("lets no work in before the owner agreed but opening and finding the fault, and through an override only with a name and a reason", async () => {
    const told = await story();
    await issued(told);
    const page = await told.desk.get(`${told.job}/work-log`);
    expect(words(page.html)).toMatch(/opening and finding the fault may be logged up to £[\d.]+, as the intake receipt says/);
    const refused = await told.desk.press(page, "Log it", { ...ENTRY, item: "w02" });
    expect(refused.status).toBe(409);
    expect(words(refused.html)).toContain("Not agreed: the owner has not answered yet.");
    expect(await entriesOf(told.opened.db, told.jobId)).toEqual([]);
    const nameless = await told.desk.press(refused, "Log it by override", {});
    expect(nameless.status).toBe(422);
    for (const field of ["override.by", "override.reason"]) expect(nameless.html).toContain(`<a href="#${field}">`);
    const over = { "override.by": HAND, "override.reason": "to find out whether it smokes" };
    const done = await told.desk.press(nameless, "Log it by override", over);
    expect(words(done.html)).toContain("to find out whether it smokes");
    expect(await entriesOf(told.opened.db, told.jobId)).toMatchObject([{ minutes: 30, overrideId: expect.any(String) }]);
  });

  it("after a refusal lets opening and refitting in, as its page says, and other work through an override alone", async () => {
    const told = await story();
    const { owner, seen } = await come(told, await issued(told));
    await owner.press(await owner.press(seen, /^Decline/, { name: NAME }), /^Decline/);
    const page = await told.desk.get(`${told.job}/work-log`);
    expect(words(page.html)).toMatch(
      /The owner declined\. Opening and refitting are logged as they were; with the fee, at most £[\d.]+ is owed for looking, as promised\. Other work needs an override\./,
    );
    const other = await told.desk.press(page, "Log it", { ...ENTRY, item: "w02" });
    expect(other.status).toBe(409);
    const refit = await told.desk.press(await told.desk.get(`${told.job}/work-log`), "Log it", ENTRY);
    expect(words(refit.html)).toContain("Logged.");
    expect(await entriesOf(told.opened.db, told.jobId)).toMatchObject([{ minutes: 30 }]);
  });

  it("logs agreed work once, however often the button is pressed, and refuses what passes the ceiling of a job billed by its time", async () => {
    const told = await story();
    await byTime(told.opened.db, told.jobId);
    await agreedOnPage(told);
    const form = await told.desk.get(`${told.job}/work-log`);
    expect(words((await told.desk.press(form, "Log it", ENTRY)).html)).toContain("Logged.");
    await told.desk.press(form, "Log it", ENTRY);
    expect(await entriesOf(told.opened.db, told.jobId)).toHaveLength(1);
    const next = await told.desk.get(`${told.job}/work-log`);
    const above = await told.desk.press(next, "Log it", { ...ENTRY, minutes: "6,000" });
    expect(above.status).toBe(409);
    expect(words(above.html)).toMatch(/This would pass what the owner agreed to by £[\d.,]+, tax included\./);
    expect(above.html).toContain('value="6,000"');
  });

  it("marks and refuses work that a later draft added", async () => {
    const told = await story();
    await agreedOnPage(told);
    const extra = { reason: "cracked", part: "Jack" };
    await told.desk.press(await told.desk.get(`${told.job}/extra-fault`), "Add it to a draft of revision 2", extra);
    const form = await told.desk.get(`${told.job}/work-log`);
    const [, item] = /<option value="([^"]+)">Replace, Jack – not agreed</.exec(form.html)!;
    const refused = await told.desk.press(form, "Log it", { ...ENTRY, item: item! });
    expect(refused.status).toBe(409);
    expect(words(refused.html)).toContain("it is not in the revision the owner agreed to");
  });

  it("names what cannot be read", async () => {
    const told = await story();
    await issued(told);
    const form = await told.desk.get(`${told.job}/work-log`);
    const wrong = await told.desk.press(form, "Log it", { minutes: "five", person: "", workedOn: "yesterday" });
    for (const field of ["minutes", "person", "workedOn"]) expect(wrong.html).toContain(`<a href="#${field}">`);
  });
});

describe("the job's other pages", () => {
  it("compare any two revisions", async () => {
    const told = await story();
    await agreedOnPage(told);
    await told.desk.press(await told.desk.get(`${told.job}/extra-fault`), "Add it to a draft of revision 2", {
      reason: "cracked",
      part: "Jack",
    });
    const read = words((await told.desk.get(`${told.job}/changes`)).html);
    expect(read).toContain("Faults found since");
    expect(words((await told.desk.get(`${told.job}/changes?from=1&to=1`)).html)).toContain("Nothing on the sheet differs.");
  });

  it("list the trail in order, and say when it was tampered with", async () => {
    const told = await story();
    await agreedOnPage(told);
    const { html } = await told.desk.get(`${told.job}/trail`);
    const events = await eventsOf(told.opened.db, told.jobId);
    expect(events.map(({ is }) => is)).toEqual(["draft begun", "issued", "link made", "answered"]);
    expect([...html.matchAll(/<li value="(\d+)"/g)].map(([, number]) => Number(number))).toEqual([1, 2, 3, 4]);
    expect(html).not.toContain("was changed");
    const checked = words((await told.desk.get(`${told.job}/trail?check=all`)).html);
    expect(checked).toMatch(
      /Checked .+: 4 events, \d entries and 1 revision with their papers are as they were written, as are owner/,
    );
    const copied = (name: string) =>
      told.opened.db.run(sql`update row_copies set body = json_set(body, '$[3]', ${name}) where of = 'owners'`);
    const [owner] = (await told.opened.db.run(sql`select name from owners`)).rows as unknown as { name: string }[];
    await copied("Somebody Else");
    expect(words((await told.desk.get(`${told.job}/trail?check=all`)).html)).toContain(
      `'name' is not what was written: it says '${owner!.name}', its copy says 'Somebody Else'`,
    );
    await copied(owner!.name);
    await told.opened.db.run(sql`drop trigger events_stay`);
    await told.opened.db.run(sql`update events set content = '{"revision":1,"by":"Somebody Else"}' where number = 2`);
    expect(words((await told.desk.get(`${told.job}/trail`)).html)).toContain("Event 2 does not match its hash");
    expect(words((await told.desk.get(`${told.job}/trail?check=all`)).html)).toContain("Event 2 does not match its hash");
  });

  it("are not there for a job that is not", async () => {
    const { desk } = await story();
    for (const page of ["", "/issue", "/extra-fault", "/answers", "/links", "/work-log", "/changes", "/trail"])
      expect([page, (await desk.get(`/jobs/no-such-job${page}`)).status]).toEqual([page, 404]);
  });
});
