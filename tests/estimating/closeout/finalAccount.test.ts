import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { agreedLimit, over } from "../../../src/estimating/agreement/limit.js";
import { type FinalAccount, finalAccount } from "../../../src/estimating/closeout/account/finalAccount.js";
import { marginOf, plannedMargin } from "../../../src/estimating/closeout/account/margin.js";
import type { AccountTerms } from "../../../src/estimating/closeout/account/terms.js";
import type { JobDone } from "../../../src/estimating/closeout/jobDone.js";
import { closeOut } from "../../../src/estimating/closeout/variance/closeOut.js";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput, WorkItem } from "../../../src/estimating/input.js";
import { problemText } from "../../../src/wording/problem.js";
import { runs } from "../../setup/runs.js";
import { anyInput } from "../cast/anyInput.js";
import { sum } from "../cast/organ.js";
import { TAXED } from "../cast/plainBook.js";
import { anyLog, done, exactly, INPUT, ITEMS, minutes, revisionOf, sheetOf, used } from "./done.js";

const TERMS: AccountTerms = {
  basis: "fixed price",
  on: "2026-11-25",
  payments: [],
  warrantyDays: 90,
  oldParts: { is: "returned" },
};
const TIME_AND_PARTS: AccountTerms = { ...TERMS, basis: "time and parts" };

function account(job: JobDone, terms: AccountTerms = TERMS): FinalAccount {
  const result = finalAccount(job, terms);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.account;
}
/** With tax at 20 %: 90.40 net, 108.48 with tax. */
const TAXED_INPUT: EstimateInput = { ...INPUT, rateBook: TAXED };
const taxed = (log: Parameters<typeof done>[0], given: Partial<JobDone> = {}) =>
  done(log, { revisions: [revisionOf(TAXED_INPUT)], ...given });
const BUSY = {
  time: [
    minutes("open lid", 10),
    minutes("clean", 15),
    minutes("clean", 10.5, { labourClass: "alignment" }),
    minutes("voice", 20),
  ],
  parts: [used("caps", 3, 12), used("caps", 1, 15, { state: "reconditioned" })],
};

describe("a fixed price", () => {
  it("is the agreed sheet's, whatever it took", () => {
    const bill = account(taxed(BUSY));
    const sheet = sheetOf(TAXED_INPUT);
    expect([bill.lines, bill.adjustments, bill.totals]).toEqual([sheet.lines, sheet.adjustments, sheet.totals]);
    expect(bill.totals.total).toBe(10848);
  });

  it("takes in what was found and leaves out what was not done", () => {
    const bill = account(taxed({}, { found: ["valve"], done: { voice: 0 } }));
    expect(bill.totals.withoutTax).toBe(9040 + 1100 + 10 - 3000);
    expect(bill.lines.some(({ id }) => id === "labour:voice")).toBe(false);
  });

  it("says how the agreed total became this one: what was not done, what was found, and their amounts with tax", () => {
    const before = account(taxed({}));
    expect(before.since).toEqual({ agreed: 10848, notDone: [], steps: [] });
    const { since, totals } = account(taxed({}, { found: ["valve"], done: { voice: 0 } }));
    expect(since!.notDone.map(({ item }) => item)).toEqual(["voice"]);
    // 30.00 of work and 3.00 of opening for it; 11.10 of what was found, and the same opening again; 20 % on top.
    expect(since!.steps).toEqual([
      { is: "not done", amount: -3960 },
      { is: "found", amount: 1692 },
    ]);
    expect(since!.agreed + sum(since!.steps.map(({ amount }) => amount))).toBe(totals.total);
  });

  it("is no dearer for work left undone, where a least charge with sundries on it takes its place; unless it was closed before that was kept", () => {
    const rateBook = {
      ...TAXED,
      billing: { incrementMinutes: 0, minimumCharge: 20000 },
      parts: { ...TAXED.parts, sundries: { percentOfParts: 0, percentOfLabour: 10 } },
    };
    const lid: WorkItem = { id: "lid", own: { name: "Straighten the lid", price: 5000 }, count: 1, certainty: { is: "planned" } };
    const revisions = [revisionOf({ ...INPUT, rateBook, items: [ITEMS[0]!, lid] })] as const;
    const { total } = revisions[0].sheet.totals;
    const left = { revisions, done: { lid: 0 } };
    // 10 % of the 50.00 that the least charge grew by, with 20 % tax.
    expect(account(done({}, left)).totals.total).toBe(total + 600);
    const bill = account(done({}, { ...left, promised: true }));
    expect(bill.totals.total).toBe(total);
    expect(bill.since).toMatchObject({ agreed: total, notDone: [{ item: "lid", count: 1 }], steps: [] });
  });

  it("tells apart what was timed and what is reckoned at its planned time", () => {
    expect(account(taxed(BUSY)).worked).not.toHaveProperty("untimed");
    const log = { time: [minutes("clean", 15)] };
    const { worked } = account(taxed(log, { untimed: { voice: "done" } }));
    const line = sheetOf(TAXED_INPUT).lines.find(({ id }) => id === "labour:voice")!;
    const opening = sheetOf(TAXED_INPUT).lines.filter(({ sort }) => sort === "access");
    expect(worked.attended).toBe(15);
    expect(worked.untimed).toBe(line.minutes! + sum(opening.map(({ minutes: planned }) => planned ?? 0)));
  });

  it("tells its parts in the state of what was used, as many as it charges, and apart what was used beyond", () => {
    const told = (log: Parameters<typeof done>[0], terms = TERMS, given: Partial<JobDone> = {}) =>
      account(taxed(log, given), terms).fitted!.map(({ part, state, count, insteadOf, beyond }) =>
        [part.name, state, count, ...(insteadOf ? [`for ${insteadOf.name}`] : []), ...(beyond ? ["beyond"] : [])].join(" "),
      );
    expect(told({})).toEqual(["capacitor new 4"]);
    expect(told({ parts: [used("caps", 1, 9, { state: "donor pull" })] })).toEqual(["capacitor donor pull 1", "capacitor new 3"]);
    const more = { parts: [used("caps", 3, 12), used("caps", 3, 15, { state: "new old stock" as const })] };
    expect(told(more)).toEqual(["capacitor new 3", "capacitor new old stock 1", "capacitor new old stock 2 beyond"]);
    expect(told(more, TIME_AND_PARTS)).toEqual(["capacitor new 3", "capacitor new old stock 3"]);
    const other = { part: { type: "dip-40" }, insteadOf: true as const };
    expect(told({ parts: [used("caps", 2, 9, other)] }, TERMS)).toEqual(["dip-40 new 2 for capacitor", "capacitor new 2"]);
    expect(told({ parts: [used("caps", 2, 9, other)] }, TIME_AND_PARTS)).toEqual(["dip-40 new 2 for capacitor"]);
    expect(told({}, TERMS, { found: ["valve"], done: { caps: 3 } })).toEqual(["capacitor new 3", "valve new 1"]);
  });

  it("credits what was paid, and pays back what is too much", () => {
    const payments = [
      { on: "2026-11-02", amount: 4500, for: "diagnosis fee" },
      { on: "2026-11-09", amount: 6000, for: "deposit" },
    ] as const;
    const bill = account(taxed(BUSY), { ...TERMS, payments });
    expect(bill.totals).toMatchObject({ total: 10848, prepaid: 10500, due: 348 });
    expect(account(taxed(BUSY), { ...TERMS, payments: [{ ...payments[0], amount: 20_000 }] }).totals.due).toBe(-9152);
  });

  it("credits the diagnosis fee as the rate book says", () => {
    const fees = (creditedOnAgreement: boolean): EstimateInput => ({
      ...TAXED_INPUT,
      policy: { diagnosis: true },
      rateBook: { ...TAXED, fees: { ...TAXED.fees, diagnosis: { amount: 4000, creditedOnAgreement } } },
    });
    const total = (credited: boolean) => account(done({}, { revisions: [revisionOf(fees(credited))] })).totals.withoutTax;
    expect([total(true), total(false)]).toEqual([9040, 13_040]);
  });
});

describe("time and parts", () => {
  it("bill the minutes worked at the class worked at, and the parts at what was paid with mark-up", () => {
    const bill = account(taxed(BUSY), TIME_AND_PARTS);
    expect(bill.lines.map(({ id, minutes: taken, count, amount }) => [id, taken ?? count, amount])).toEqual([
      ["access:lid", 10, 1000],
      ["labour:clean", 15, 1500],
      ["labour:clean/2", 10.5, 2100],
      ["labour:voice", 20, 4000],
      ["part:capacitor", 3, 36],
      ["part:capacitor/2", 1, 15],
    ]);
    expect(bill.totals).toMatchObject({ withoutTax: 8651, total: 10381 });
    expect(bill.hours).toEqual([
      { labourClass: { id: "bench", name: "Bench" }, minutes: 25, ratePerHour: 6000, amount: 2500 },
      { labourClass: { id: "alignment", name: "Alignment" }, minutes: 30.5, ratePerHour: 12_000, amount: 6100 },
    ]);
    expect(bill.parts.map(({ part, state, count }) => [part.name, state, count])).toEqual([
      ["capacitor", "new", 3],
      ["capacitor", "reconditioned", 1],
    ]);
    expect(bill.worked).toEqual({ attended: 55.5, unattended: 0 });
  });

  it("follow the rate book's steps, least charge, discount, sundries, freight and rush", () => {
    const input: EstimateInput = {
      ...TAXED_INPUT,
      policy: { rush: true, discount: { percent: 10, reason: "second visit" } },
      rateBook: {
        ...TAXED,
        billing: { incrementMinutes: 6, minimumCharge: 5000 },
        parts: { ...TAXED.parts, sundries: { percentOfParts: 0, percentOfLabour: 2 } },
      },
    };
    const bill = account(done({ time: [minutes("clean", 25)] }, { revisions: [revisionOf(input)] }), TIME_AND_PARTS);
    expect(bill.lines.map(({ id, amount }) => [id, amount])).toEqual([
      ["labour:clean", 2500],
      ["rounding:bench", 500],
      ["minimum", 2000],
    ]);
    expect(bill.adjustments.map(({ id, charge, amount }) => [id, charge ? amount : -amount])).toEqual([
      ["discount", -500],
      ["sundries", 100],
      ["rush", 1250],
    ]);
  });

  it("never pass the limit agreed: the rest is taken off and said", () => {
    const long = taxed({ time: [minutes("clean", 200)] });
    const bill = account(long, TIME_AND_PARTS);
    // 10 % above 108.48: 119.33.
    expect(bill.limit).toMatchObject({ upTo: 11933, withTax: true });
    expect(bill.totals.total).toBe(11933);
    expect(bill.held.over).toBe(24_000 - 11_933);
    expect(sum(bill.held.allowances.map(({ amount }) => amount))).toBe(20_000 - bill.totals.withoutTax);
  });

  it("may pass it on a record with a reason and a name, and only then", () => {
    const long = taxed({ time: [minutes("clean", 200)] });
    const above = { reason: "the owner came by and asked for it", by: "Oskar" };
    expect(account(long, { ...TIME_AND_PARTS, above })).toMatchObject({
      above,
      held: { allowances: [] },
      totals: { total: 24_000 },
    });
    expect(account(taxed({}), { ...TIME_AND_PARTS, above }).above).toBeUndefined();
    const unsigned = finalAccount(long, { ...TIME_AND_PARTS, above: { reason: "asked", by: "" } });
    expect(unsigned.ok ? [] : unsigned.problems.map(problemText)).toEqual([
      "Final account, above the limit: the override has no name, and without one it is no record; give a reason and the name of who decided.",
    ]);
  });

  it("do not bill what nobody agreed to", () => {
    const override = { reason: "smoke", by: "Oskar" };
    const current = { ...TAXED_INPUT, items: [...ITEMS, { ...ITEMS[0]!, id: "burn" }] };
    const bill = account(taxed({ time: [minutes("burn", 30, { override }), minutes("clean", 19)] }, { current }), TIME_AND_PARTS);
    expect(bill.totals.withoutTax).toBe(1900);
    expect(bill.notCharged).toBe(3000);
  });
});

describe("an account", () => {
  it("says warranty, old parts and payments as given, and refuses what cannot be", () => {
    const bill = account(taxed(BUSY), { ...TERMS, oldParts: { is: "kept", why: "exchange part" } });
    expect(bill).toMatchObject({ warranty: { days: 90, until: "2027-02-23" }, oldParts: { is: "kept", why: "exchange part" } });
    const wrong = finalAccount(taxed(BUSY), {
      ...TERMS,
      on: "2026-11-31",
      warrantyDays: -1,
      payments: [{ on: "today", amount: 1.5, for: "deposit" }],
    });
    expect(wrong.ok ? [] : wrong.problems.map(({ name, pointer }) => [name, pointer])).toEqual([
      ["date unreadable", "/terms/on"],
      ["date unreadable", "/terms/payments/0/on"],
      ["amount fractional", "/terms/payments/0/amount"],
      ["count negative", "/terms/warrantyDays"],
    ]);
  });

  it("is not made while a timer runs; what it would be so far can be seen", () => {
    const running = taxed({
      time: [{ id: "t", work: { is: "item", id: "clean" }, person: "Ines", startedAt: "2026-11-25T09:00Z" }],
    });
    const result = finalAccount(running, TERMS);
    expect(result.ok ? [] : result.problems.map(({ name }) => name)).toEqual(["timer running"]);
    expect(!result.ok && result.partial?.totals.total).toBe(10848);
  });

  it("bill possible work that was found, done and not timed, with its parts, unless it was closed before they were", () => {
    const found = { found: ["valve"], untimed: { valve: "done" as const } };
    const parts = (given: Partial<JobDone>) =>
      account(taxed({}, { ...found, ...given }), TIME_AND_PARTS).lines.flatMap(({ sort, part, count }) =>
        sort === "part" ? [[part!.name, count]] : [],
      );
    expect(parts({})).toEqual([]);
    expect(parts({ foundParts: true })).toEqual([["valve", 1]]);
  });
});

describe("the margin", () => {
  const costs = { perHour: { Ines: 3000 }, otherwise: 2400, other: [{ what: "freight", amount: 495 }] };

  it("is what is billed without tax, less hours, parts and the rest", () => {
    const job = taxed({
      time: [minutes("clean", 20), minutes("voice", 30, { person: "Oskar" })],
      parts: [used("caps", 4, 25, { paid: { price: 25, per: 2 } })],
    });
    expect(marginOf(job, account(job), costs)).toEqual({
      revenue: 9040,
      labour: 1000 + 1200,
      parts: 50,
      other: 495,
      margin: 6295,
      percent: 69.635,
      perHour: 7554,
    });
  });
  it("was planned from the sheet: likely minutes, parts as offered", () => {
    // 75 minutes and four capacitors at 0.10.
    expect(plannedMargin(sheetOf(TAXED_INPUT), costs)).toMatchObject({
      revenue: 9040,
      labour: 3000,
      parts: 40,
      other: 0,
      margin: 6000,
    });
  });
  it("has no percentage without revenue and no rate without hours", () => {
    const job = taxed({}, { done: { clean: 0, caps: 0, voice: 0 } });
    expect(marginOf(job, account(job), { ...costs, other: [] })).toEqual({
      revenue: 0,
      labour: 0,
      parts: 0,
      other: 0,
      margin: 0,
    });
  });
});

describe("any account", () => {
  const anyJob = anyInput
    .filter((input) => estimate(input).ok)
    .chain((input) =>
      fc.record({
        input: fc.constant(input),
        log: anyLog(input, sheetOf(input)),
        all: fc.boolean(),
        paid: fc.nat(20_000),
      }),
    );

  it("adds up, never passes its limit without a record, and time and parts is the close-out's actual", () => {
    fc.assert(
      fc.property(anyJob, ({ input, log, all, paid }) => {
        const found = all ? input.items.flatMap(({ id, certainty }) => (certainty.is === "if found" ? [id] : [])) : [];
        const job: JobDone = { revisions: [revisionOf(input)], found, done: {}, log };
        for (const basis of ["fixed price", "time and parts"] as const) {
          const result = finalAccount(job, { ...TERMS, basis, payments: [{ on: "2026-11-01", amount: paid, for: "deposit" }] });
          const bill = result.ok ? result.account : result.partial!;
          const { lines, adjustments, held, totals } = bill;
          expect(over(agreedLimit(input, found)!, totals)).toBe(0);
          const off = sum(held.allowances.map(({ amount }) => amount));
          const signed = sum(adjustments.map(({ charge, amount }) => (charge ? amount : -amount)));
          const price = sum(lines.map(({ amount }) => amount)) + signed;
          expect(totals.withoutTax + (totals.pricesIncludeTax ? totals.tax : 0)).toBe(price - off);
          expect(totals.due).toBe(totals.total - paid);
          if (basis === "fixed price") continue;
          const closed = closeOut(job);
          const { total } = closed.ok ? closed.closeOut : closed.partial!;
          expect(price + bill.notCharged).toBe(total.actual);
        }
      }),
      runs(40),
    );
  });

  it("of work done exactly as allowed is the same by time and parts as at the fixed price", () => {
    const input = { ...TAXED_INPUT, rateBook: { ...TAXED, billing: { incrementMinutes: 15, minimumCharge: 0 } } };
    const job = done(exactly(sheetOf(input), input), { revisions: [revisionOf(input)] });
    expect(account(job, TIME_AND_PARTS).totals).toEqual(account(job).totals);
  });
});
