/** Two faults found on the bench, one of them where nobody looked: told alike on page, owner's page, API and bench, agreed in part, and what was left out stays out until it is asked for. */
import { describe, expect, it } from "vitest";
import type { FaultsFound } from "../../src/estimating/agreement/faultsFound.js";
import { answersOf } from "../../src/records/agreements.js";
import { estimates } from "../../src/records/estimates.js";
import { money } from "../../src/wording/figures.js";
import { type Seen, words } from "../http/support/noScript.js";
import { come, HAND, issued, linkOn, type Story, story, totalOn } from "../http/support/story.js";

const NAME = "Žofie Kapradinová";
const POUNDS = { locale: "en-GB", currency: "GBP" } as const;
const REGULATOR = { reason: "regulator drops out when warm", part: "Voltage regulator", where: "Supply board" };
const TRAY = {
  ...{ reason: "a corroded link under the tray", work: "Clean a board", where: "Battery tray" },
  ...{ "placeFasteners.screw": "3", placeSort: "shelf" },
};

const ticked = ({ html }: Seen, name: string) =>
  [...html.matchAll(new RegExp(`name="${name}" value="([^"]+)"`, "g"))].map(([, id]) => id!);
const draftOf = async ({ opened, jobId }: Story) => (await estimates.ofJob(opened.db, jobId)).at(-1)!;
const told = async ({ opened }: Story, path: string, body?: object) => {
  const init = { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify(body) };
  const answer = await opened.app.request(`http://localhost:4700/api${path}`, body ? init : {});
  return { status: answer.status, body: (await answer.json()) as Record<string, unknown> };
};

/** Revision 1 agreed to without its first work; the faults added one after the other. */
async function twoFound() {
  const life = await story();
  const { owner, seen } = await come(life, await issued(life));
  const [refused, ...kept] = ticked(seen, "work");
  const check = await owner.press(seen, /^Agree to/, { name: NAME, work: kept });
  await owner.press(check, /^Agree to/);
  const { amount } = (await answersOf(life.opened.db, life.jobId)).at(-1)!;
  const form = await life.desk.get(`${life.job}/extra-fault`);
  const second = await life.desk.press(form, "Add it, then another fault", REGULATOR);
  expect(words(second.html)).toContain("Added to the draft. Say the next fault, or issue what stands there.");
  expect(words(second.html)).toContain(REGULATOR.reason);
  const issue = await life.desk.press(second, "Add it and go on to issue revision 2", TRAY);
  const [regulator, tray] = (await draftOf(life)).input.items.slice(-2).map(({ id }) => id);
  return { life, owner, issue, refused: refused!, amount: amount!, regulator: regulator!, tray: tray! };
}

describe("two extra faults in one revision, one at a place that the map did not have", () => {
  it("each stands with its reason, its price on top and what it shares, alike on every page, and in the API", async () => {
    const { life, issue, amount, tray } = await twoFound();
    const { body } = await told(life, `/jobs/${life.jobId}/changes`);
    const { each, together } = (body as unknown as { faults: FaultsFound }).faults;
    expect(each.map(({ reason, newPlace }) => [reason, newPlace])).toEqual([
      [REGULATOR.reason, undefined],
      [TRAY.reason, "Battery tray"],
    ]);
    expect((await draftOf(life)).sheet!.totals.total).toBe(amount + together);
    const link = linkOn(await life.desk.press(issue, "Issue revision 2", { by: HAND }));
    const { seen } = await come(life, link);
    for (const { html } of [issue, seen, await life.desk.get(`${life.job}/changes`)]) {
      const read = words(html);
      for (const { name, reason, price } of each)
        for (const text of [name, reason!, `+${money(price, POUNDS)}`]) expect(read).toContain(text);
      expect(read).toContain(`+${money(together, POUNDS)}`);
      expect(read).toContain("Battery tray was not");
    }
    expect(totalOn(seen.html)).toBe(money(amount + together, POUNDS));
    const { input } = await draftOf(life);
    expect(input.items.find(({ id }) => id === tray)?.assembly).toBe("place1");
  });

  it("asks no reason for what the owner left out, and agreed in part the bench works what was agreed alone", async () => {
    const { life, issue, refused, amount, regulator, tray } = await twoFound();
    expect(issue.html).not.toContain(`value="${refused}"`);
    expect(words(issue.html)).not.toContain("Why, for the owner to read");
    const { owner, seen } = await come(life, linkOn(await life.desk.press(issue, "Issue revision 2", { by: HAND })));
    expect(words(seen.html)).toContain("You left this out in revision 1");
    const work = ticked(seen, "work").filter((id) => id !== regulator);
    await owner.press(await owner.press(seen, /^Agree to/, { name: NAME, work }), /^Agree to/);
    const record = (await answersOf(life.opened.db, life.jobId)).at(-1)!;
    expect([record.answer, record.struck]).toEqual(["part agreed", [regulator]]);
    const bench = words((await life.desk.get(`${life.job}/bench`)).html);
    expect(bench).toContain("Battery tray");
    // The one left out is marked too, and blocked.
    expect(bench.match(/Extra fault, revision 2\./g)).toHaveLength(2);
    expect(bench).toContain("Not agreed:");

    // What was left out in one revision and in the next stays out, each as what it is.
    await life.desk.send(`${life.job}/revisions`, []);
    const third = await draftOf(life);
    const refusals = third.input.items.flatMap(({ id, certainty }) =>
      certainty.is === "optional" && certainty.refused !== undefined ? [[id, certainty.refused]] : [],
    );
    expect(refusals).toEqual([
      [refused, 1],
      [regulator, 2],
    ]);
    expect(third.sheet!.totals.total).toBe(record.amount);
    expect(third.input.items.find(({ id }) => id === tray)?.certainty).toEqual({ is: "planned" });
    expect(record.amount).toBeGreaterThan(amount);
  });

  it("refused work is asked for again by page and by program, at the price that is printed for it", async () => {
    const { life, issue, refused, regulator } = await twoFound();
    const { owner, seen } = await come(life, linkOn(await life.desk.press(issue, "Issue revision 2", { by: HAND })));
    const work = ticked(seen, "work").filter((id) => id !== regulator);
    await owner.press(await owner.press(seen, /^Agree to/, { name: NAME, work }), /^Agree to/);
    await life.desk.send(`${life.job}/revisions`, []);
    const third = await come(life, await issued(life));
    const { sheet, id } = await draftOf(life);
    const price = (of: string) => sheet!.options.find((option) => option.id === of)!;
    expect([price(refused).refused, price(regulator).refused]).toEqual([1, 2]);
    for (const revision of [1, 2]) expect(words(third.seen.html)).toContain(`You left this out in revision ${revision}`);

    const taken = sheet!.options.flatMap((option) => (option.chosen ? [option.id] : []));
    const asked = await third.owner.press(third.seen, "Work out the price", { chosen: [...taken, regulator] });
    expect(totalOn(asked.html)).toBe(money(sheet!.totals.total + price(regulator).price, POUNDS));
    const preview = await told(life, `/estimates/${id}/agreements/preview`, { answer: "agreed", chosen: [...taken, refused] });
    expect(preview.body).toMatchObject({ amount: sheet!.totals.total + price(refused).price });

    const check = await third.owner.press(asked, /^Agree to/, { name: NAME, chosen: [...taken, regulator] });
    await third.owner.press(check, /^Agree to/);
    const record = (await answersOf(life.opened.db, life.jobId)).at(-1)!;
    expect(record).toMatchObject({ answer: "agreed", amount: sheet!.totals.total + price(regulator).price });
    expect(record.chosen).toContain(regulator);
    // By now it is agreed to, and what is left out is what was never asked for.
    await life.desk.send(`${life.job}/revisions`, []);
    const last = (await draftOf(life)).input.items;
    expect(last.find((item) => item.id === regulator)?.certainty).toMatchObject({ is: "optional", chosen: true });
    expect(last.find((item) => item.id === refused)?.certainty).toMatchObject({ is: "optional", chosen: false, refused: 1 });
  });
});
