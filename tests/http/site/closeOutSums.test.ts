/** Every total on a close-out's pages is the sum of the parts printed above it, as a reader with a pencil would find. */
import { describe, expect, it } from "vitest";
import { estimates } from "../../../src/records/estimates.js";
import { answerOf, close } from "../../acts/support/bench.js";
import { agreedJob, closing, logged, worked } from "../../records/support/closed.js";
import { draftSaved } from "../../records/support/drafts.js";
import { at, livedIn } from "../../records/support/livedIn.js";
import { visitor, words } from "../support/noScript.js";
import { demo, shop } from "../support/shop.js";
import { pence, type ReadTable, tablesOn } from "../support/tables.js";

const { jobs } = await demo();
const NAMED = jobs.map(({ id }, index) => [`job ${index + 1}`, id] as const);

/** Worked on longer than allowed, some of it on nothing that was agreed, with parts dearer than they were, costs beside and a deposit. */
async function lived(jobId: string, pricesIncludeTax: boolean, times: number) {
  const opened = await shop();
  const { db } = opened;
  const draft = (await estimates.ofJob(db, jobId))[0]!;
  const input = { ...draft.input, policy: { ...draft.input.policy, pricesIncludeTax } };
  await draftSaved(db, draft.id, draft.version, { ...draft, input }, at(0));
  await agreedJob(db, jobId);
  await worked(db, jobId, times);
  await logged(db, jobId, [{ minutes: 17 }, { item: draft.input.items[0]!.id, minutes: 23.5, parts: 777 }], at(4));
  /** Of one work, half was left. */
  const { id, count } = input.items.find((item) => item.count > 1 && item.certainty.is === "planned")!;
  return { ...opened, done: { [id]: Math.floor(count / 2) }, desk: visitor(opened), path: `/jobs/${jobId}/close-out` };
}

const tableOf = (tables: readonly ReadTable[], caption: string) => {
  const found = tables.find((table) => table.caption === caption);
  expect(found, `${caption} among ${tables.map((table) => table.caption).join(", ")}`).toBeDefined();
  return found!;
};
const amounts = (rows: ReadTable["rows"], column: number) =>
  rows.map((row) => {
    const amount = pence(row[column] ?? "");
    expect(amount, row.join(" | ")).toBeDefined();
    return amount!;
  });
const sum = (parts: readonly number[]) => parts.reduce((total, part) => total + part, 0);
const named = ({ rows, foot }: ReadTable, name: string, column = 1): number => {
  const row = [...rows, ...foot].find(([first]) => first === name);
  expect(row, name).toBeDefined();
  return pence(row![column]!)!;
};
/** What stands beside a name in a list of facts. */
const fact = (html: string, name: RegExp): number => {
  const found = new RegExp(`<dt>(?:${name.source})</dt>\\s*<dd[^>]*>(.*?)</dd>`, "s").exec(html);
  expect(found, String(name)).not.toBeNull();
  return pence(words(found![1]!).trim())!;
};

/** The tables of a closed job's comparison, added up; what they come to together. */
function addedUp(html: string) {
  const tables = tablesOn(html);
  const figures = ["By category", "By piece of work", "By assembly", "Line by line"].map((caption) => tableOf(tables, caption));
  const [first] = figures;
  for (const table of figures) {
    expect(table.rows.length, table.caption).toBeGreaterThan(0);
    for (const column of [1, 2, 3, 4, 5])
      expect(sum(amounts(table.rows, column)), `${table.caption}, column ${column}`).toBe(pence(table.foot[0]![column]!));
    for (const [name, actual, difference, allowed] of [...table.rows, ...table.foot])
      expect(pence(difference!), `${table.caption}: ${name}`).toBe(pence(actual!)! - pence(allowed!)!);
    expect(table.foot, table.caption).toEqual(first!.foot);
  }
  const [quoted, agreed, allowed, actual] = [5, 4, 3, 1].flatMap((column) => amounts(first!.foot, column));

  const why = tableOf(tables, "Actual less allowed, by cause");
  expect(sum(amounts(why.rows, 1))).toBe(named(why, "Actual less allowed"));
  expect(named(why, "Actual less allowed")).toBe(actual! - allowed!);
  const scope = tables.find(({ caption }) => caption === "Allowed less quoted, by cause");
  const change = allowed! - quoted!;
  expect(scope ? [sum(amounts(scope.rows, 1)), named(scope, "Allowed less quoted")] : [0, 0]).toEqual([change, change]);
  return { quoted, agreed, allowed, actual };
}

describe.each([
  ["tax inside its prices, at the price agreed", true, "fixed price", 1.37],
  ["tax on top, by time and parts beyond the limit agreed", false, "time and parts", 6],
] as const)("with %s", (_, pricesIncludeTax, basis, times) => {
  it.each(NAMED)("the account of %s adds up line by line before it is closed", async (_, jobId) => {
    const { desk, path } = await lived(jobId, pricesIncludeTax, times);
    const typed = { basis, "payments.0.on": "2026-11-26", "payments.0.amount": "50" };
    const { html } = await desk.press(await desk.get(path), "Work out the account", typed);
    const { rows } = tableOf(tablesOn(html), "The account, line by line");
    if (basis === "time and parts") expect(rows.map(([name]) => name)).toContain("Above the limit agreed, not charged");
    const [total, due] = ["Total, tax included", "Due"].map((name) => rows.findIndex(([first]) => first === name));
    const all = amounts(rows, 1);
    expect(total).toBeGreaterThan(3);
    expect(sum(all.slice(0, total)), words(html)).toBe(all[total!]);
    expect(rows.slice(total! + 1, due).map(([name]) => name)).toEqual([expect.stringMatching(/^Paid: /)]);
    expect(sum(all.slice(total, due))).toBe(all[due!]);
    expect(fact(html, /Total, tax included/)).toBe(all[total!]);
    expect(fact(html, /Paid already/)).toBe(5000);
    expect(fact(html, /Still to pay/)).toBe(all[due!]);
  });

  it.each(NAMED)("every table of %s adds up once it is closed, and all of them come to the same", async (_, jobId) => {
    const { db, desk, done, path } = await lived(jobId, pricesIncludeTax, times);
    const costs = { perHour: {}, otherwise: 2833, freight: 1000, other: [{ what: "a courier", amount: 234 }] };
    answerOf(await close(db, { job: jobId, when: at(600) }, closing({ costs, done, basis })));
    const { html } = await desk.get(path);
    const { quoted, allowed, actual } = addedUp(html);
    expect(actual).not.toBe(allowed);
    expect(allowed).not.toBe(quoted);
    const margin = tableOf(tablesOn(html), "Margin, planned and earned");
    for (const column of [1, 2]) expect(sum(amounts(margin.rows, column))).toBe(named(margin, "Margin", column));
    expect(named(margin, "Freight and other costs", 2)).toBe(-1234);
    expect(fact(html, /Total, tax included/) - fact(html, /Paid already/)).toBe(fact(html, /Still to pay/));
    if (!pricesIncludeTax) expect(named(margin, "Billed, without tax", 2)).toBeLessThan(fact(html, /Total, tax included/));
  });
});

it("the tables of a job with a second revision, agreed to in part, add up too", async () => {
  const opened = await shop();
  const { jobId } = await livedIn(opened.db);
  const { html } = await visitor(opened).get(`/jobs/${jobId}/close-out`);
  const { quoted, agreed, allowed } = addedUp(html);
  expect(new Set([quoted, agreed, allowed]).size).toBe(3);
});
