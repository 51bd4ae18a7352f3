/** Every answer an owner can give: the words shown before it is sent are the words on record, byte for byte, and so are the amounts. */
import { describe, expect, it } from "vitest";
import { answersOf } from "../../src/records/agreements.js";
import { estimates } from "../../src/records/estimates.js";
import { money } from "../../src/wording/figures.js";
import { type Seen, words } from "../http/support/noScript.js";
import { come, issued, type Story, story, totalOn } from "../http/support/story.js";

const NAME = "Žofie Kapradinová";
const POUNDS = { locale: "en-GB", currency: "GBP" } as const;

const text = (html: string) => html.replaceAll("&quot;", '"').replaceAll("&#39;", "'").replaceAll("&amp;", "&");
const quoted = ({ html }: Seen) => [...html.matchAll(/<blockquote>(.*?)<\/blockquote>/gs)].map(([, words]) => text(words!));
const ticked = ({ html }: Seen, name: string) =>
  [...html.matchAll(new RegExp(`name="${name}" value="([^"]+)"`, "g"))].map(([, id]) => id!);

/** Which work is left and which options are taken, and which button is pressed. */
const ANSWERS: readonly [string, RegExp, (seen: Seen) => { work: string[]; chosen: string[] }][] = [
  ["all of it, options as offered", /^Agree to/, (seen) => ({ work: ticked(seen, "work"), chosen: [] })],
  ["with every option", /^Agree to/, (seen) => ({ work: ticked(seen, "work"), chosen: ticked(seen, "chosen") })],
  ["without the first work", /^Agree to/, (seen) => ({ work: ticked(seen, "work").slice(1), chosen: [] })],
  [
    "the last work alone, with one option",
    /^Agree to/,
    (seen) => ({ work: ticked(seen, "work").slice(-1), chosen: ticked(seen, "chosen").slice(0, 1) }),
  ],
  ["declined", /^Decline/, (seen) => ({ work: ticked(seen, "work"), chosen: [] })],
  [
    "declined with ticks taken away",
    /^Decline/,
    (seen) => ({ work: ticked(seen, "work").slice(2), chosen: ticked(seen, "chosen") }),
  ],
];

async function answers(told: Story, button: RegExp, set: (seen: Seen) => { work: string[]; chosen: string[] }) {
  const { owner, seen } = await come(told, await issued(told));
  const check = await owner.press(seen, button, { ...set(seen), name: NAME });
  const shown = quoted(check);
  const done = await owner.press(check, button);
  const record = (await answersOf(told.opened.db, told.jobId)).at(-1)!;
  return { check, shown, done, record, owner };
}

describe("an answer's words and amounts", () => {
  it.each(ANSWERS)("%s: shown, sent and recorded alike, on a first revision and on the one after it", async (_, button, set) => {
    const told = await story();
    for (const revision of [1, 2]) {
      if (revision === 2) await told.desk.send(`${told.job}/revisions`, []);
      const { check, shown, done, record } = await answers(told, button, set);
      expect(shown).toEqual([record.wording]);
      expect(quoted(done)).toContain(record.wording);
      expect(quoted(await told.desk.get(`${told.job}/answers`))).toContain(record.wording);
      const buttons = words(check.html);
      if (record.answer === "declined") expect(record.amount).toBeUndefined();
      else {
        const amount = money(record.amount!, POUNDS);
        expect(record.wording).toContain(`it comes to ${amount}, tax included`);
        expect(buttons).toMatch(new RegExp(`Agree to .*for ${amount.replace(".", "\\.")}`));
        expect(words(done.html)).toContain(`Total ${amount}`);
      }
    }
  });

  it("refused work stays refused: the next revision comes to what was agreed, says what was left out, and can be asked for it", async () => {
    const told = await story();
    const first = await answers(told, /^Agree to/, (seen) => ({ work: ticked(seen, "work").slice(1), chosen: [] }));
    const [struck] = first.record.struck;
    await told.desk.send(`${told.job}/revisions`, []);
    const { owner, seen } = await come(told, await issued(told));
    expect(totalOn(seen.html)).toBe(money(first.record.amount!, POUNDS));
    expect(words(seen.html)).toContain("You left this out in revision 1");
    expect(ticked(seen, "work")).not.toContain(struck);
    const asked = await owner.press(seen, "Work out the price", { chosen: [struck!] });
    expect(totalOn(asked.html)).not.toBe(totalOn(seen.html));
    const issue = (await answersOf(told.opened.db, told.jobId))[0]!;
    const kept = (await estimates.find(told.opened.db, issue.estimateId))!;
    expect(kept.sheet!.totals.total).toBeGreaterThan(first.record.amount!);
  });

  it("work refused while the next revision is being made is refused in that one too, and what was found meanwhile stays in it", async () => {
    const told = await story();
    const link = await issued(told);
    const found = { reason: "a cracked jack", work: "Clean a board", count: "3" };
    await told.desk.press(await told.desk.get(`${told.job}/extra-fault`), "Add it to a draft of revision 2", found);
    const { owner, seen } = await come(told, link);
    const [struck, ...work] = ticked(seen, "work");
    const check = await owner.press(seen, /^Agree to/, { work, name: NAME });
    await owner.press(check, /^Agree to/);
    const second = await come(told, await issued(told));
    expect(ticked(second.seen, "work")).not.toContain(struck);
    expect(ticked(second.seen, "work")).toHaveLength(work.length + 1);
    expect(words(second.seen.html)).toContain("You left this out in revision 1");
    const [first] = await answersOf(told.opened.db, told.jobId);
    const { items } = (await estimates.ofJob(told.opened.db, told.jobId)).at(-1)!.input;
    expect(items.find(({ id }) => id === struck)?.certainty).toEqual({ is: "optional", chosen: false, refused: 1 });
    expect(first!.struck).toEqual([struck]);
  });

  it("after an answer is corrected, a draft begun in between follows the correction", async () => {
    const told = await story();
    await issued(told);
    const all = { answer: "agreed", by: NAME, channel: "e-mail", recordedBy: "Marta Lind", writing: "e-mail, 10:12" };
    const path = `/api/estimates/${told.estimateId}/agreements`;
    const { work: struck } = { work: "w01" };
    const part = await told.opened.send("POST", path, { ...all, answer: "part agreed", struck: [struck] });
    const { id: corrects } = (await part.json()) as { id: string };
    await told.desk.send(`${told.job}/revisions`, []);
    const certainty = async () =>
      (await estimates.ofJob(told.opened.db, told.jobId)).at(-1)!.input.items.find(({ id }) => id === struck)?.certainty;
    expect(await certainty()).toEqual({ is: "optional", chosen: false, refused: 1 });
    await told.opened.send("POST", path, { ...all, corrects, reason: "ticked wrongly" });
    expect(await certainty()).toEqual({ is: "planned" });
  });

  it("a declined revision leaves work in own words, agreed to before it, as it was said", async () => {
    const told = await story();
    const first = { reason: "the lid is bent", own: "Straighten the lid", minutes: "20" };
    await told.opened.send("POST", `/api${told.job}/extra-fault`, { ...first, minutes: 20 });
    const say = async (button: RegExp) => {
      const { owner, seen } = await come(told, await issued(told));
      await owner.press(await owner.press(seen, button, { name: NAME }), button);
    };
    await say(/^Agree to/);
    await told.opened.send("POST", `/api${told.job}/extra-fault`, { reason: "a dead lamp", own: "New lamp", price: 900 });
    await say(/^Decline/);
    await told.desk.send(`${told.job}/revisions`, []);
    const [, second, third] = await estimates.ofJob(told.opened.db, told.jobId);
    expect(third?.sheet?.totals.total).toBeDefined();
    expect(third!.input.items.slice(0, -1)).toEqual(second!.input.items.slice(0, -1));
  });

  it("a declined extra fault leaves what was agreed before, and comes back only when it is asked for", async () => {
    const told = await story();
    const first = await answers(told, /^Agree to/, (seen) => ({ work: ticked(seen, "work"), chosen: [] }));
    const form = await told.desk.get(`${told.job}/extra-fault`);
    await told.desk.press(form, "Add it to a draft of revision 2", {
      reason: "a cracked jack",
      work: "Clean a board",
      count: "3",
    });
    const second = await answers(told, /^Decline/, (seen) => ({ work: ticked(seen, "work"), chosen: [] }));
    expect(second.record.wording).toContain("What I agreed to in revision 1 stands.");
    await told.desk.send(`${told.job}/revisions`, []);
    const { seen } = await come(told, await issued(told));
    expect(totalOn(seen.html)).toBe(money(first.record.amount!, POUNDS));
    expect(words(seen.html)).toContain("You left this out in revision 2");
  });
});
