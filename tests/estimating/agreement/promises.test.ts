/** The price printed for an option, or for work that may be found, is the price charged for it, alone or with others; jobs and rate books are drawn at random. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { pricedSet, withChoices, withFound } from "../../../src/estimating/agreement/choices.js";
import { finalAccount } from "../../../src/estimating/closeout/account/finalAccount.js";
import type { NumberedRevision } from "../../../src/estimating/closeout/jobDone.js";
import type { Certainty, EstimateInput, RateBook, WorkItem } from "../../../src/estimating/input.js";
import type { GroupPrice, Sheet } from "../../../src/estimating/sheet.js";
import { runs } from "../../setup/runs.js";
import { item, job, ORGAN, on, sum } from "../cast/organ.js";
import { PLAIN } from "../cast/plainBook.js";
import { sheetOf } from "./demo.js";

const KEPT: RateBook = { ...PLAIN, billing: { ...PLAIN.billing, minutes: "expected" } };

const possible: Certainty = { is: "if found", probability: 0.3 };
const optional: Certainty = { is: "optional", chosen: false };

const work: fc.Arbitrary<Omit<WorkItem, "id">> = fc
  .record({
    place: fc.option(fc.constantFrom(...ORGAN.map(({ id }) => id))),
    what: fc.constantFrom<Partial<WorkItem>>(
      { operation: "clean" },
      { operation: "adjust" },
      { operation: "replace", part: { type: "valve" } },
      { operation: "replace", part: { kind: "bought" } },
    ),
    count: fc.integer({ min: 1, max: 9 }),
    certainty: fc.oneof(
      fc.constant<Certainty>({ is: "planned" }),
      fc.constantFrom("p1", "p2", undefined).map((group): Certainty => ({ ...possible, ...(group && { group }) })),
      fc.boolean().map((chosen): Certainty => ({ ...optional, chosen })),
      fc.constant(optional),
    ),
  })
  .map(({ place, what, count, certainty }) => ({ ...what, count, certainty, ...(place !== null && { assembly: place }) }));

const book: fc.Arbitrary<RateBook> = fc
  .record({
    incrementMinutes: fc.constantFrom(0, 6, 15, 30),
    minimumCharge: fc.constantFrom(0, 3000, 9000, 30_000),
    included: fc.boolean(),
    level: fc.constantFrom("line", "group", "document"),
    parts: fc.constantFrom("none", "full"),
    packs: fc.constantFrom("used", "whole"),
    cap: fc.constantFrom(undefined, 50, 500),
  })
  .map(({ incrementMinutes, minimumCharge, included, level, parts, packs, cap }) => ({
    ...KEPT,
    billing: { incrementMinutes, minimumCharge, minutes: "expected" },
    parts: { ...PLAIN.parts, packs, sundries: { percentOfParts: 7, percentOfLabour: 3, ...(cap !== undefined && { cap }) } },
    tax: { ...PLAIN.tax, included, labour: "full", parts, rounding: { level, mode: "half up" } },
  }));

const anyJob: fc.Arbitrary<EstimateInput> = fc
  .tuple(book, fc.array(work, { minLength: 2, maxLength: 7 }), fc.constantFrom(0, 2), fc.boolean())
  .map(([rateBook, works, stock, fixed]) =>
    job({
      rateBook,
      items: works.map((each, at) => ({ ...each, id: `w${at}` })),
      kinds: [{ id: "bought", type: "capacitor", name: "Bought", stock }],
      offers: [
        {
          ...{
            id: "o1",
            kind: "bought",
            currency: "EUR",
            source: "Invented Supplies",
            on: "2026-11-20",
            price: 130,
            packSize: 5,
            minimumPacks: 1,
          },
          ...{ leadDays: 3, state: "new", freight: 450 },
        },
      ],
      ...(fixed && { policy: { pricing: { is: "fixed price", confidencePercent: 80 } } }),
    }),
  );

const total = ({ totals }: Pick<Sheet, "totals">) => totals.total;
const prices = (groups: readonly GroupPrice[], ids: readonly string[]) =>
  sum(groups.filter(({ id }) => ids.includes(id)).map(({ price }) => price));
const some = (seed: number, groups: readonly GroupPrice[]) =>
  groups.filter((_, at) => (seed >> at) % 2 === 1).map(({ id }) => id);

/** Agreed with these options, and closed with this found; the limit is out of the way. */
function lived(input: EstimateInput, taken: readonly string[], found: readonly string[]) {
  const issued = sheetOf(input);
  const offered = issued.options.flatMap(({ id, chosen }) => (chosen ? [id] : []));
  const agreed = pricedSet(input, { chosen: [...offered, ...taken], struck: [] }, issued);
  if ("is" in agreed) throw new Error(agreed.id);
  const revision: NumberedRevision = { revision: 1, ...agreed };
  const result = finalAccount(
    { revisions: [revision], found, done: {}, log: { time: [], parts: [] } },
    {
      ...{ basis: "fixed price", on: "2026-11-28", payments: [], warrantyDays: 0, oldParts: { is: "returned" } },
      limit: { agreed: 0, upTo: 1e9, withTax: true, by: "ceiling" },
    },
  );
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return { issued, agreed, account: result.account };
}

describe("what is promised is what is charged", () => {
  it("alone, each option and each possible work comes to the price printed for it", () => {
    fc.assert(
      fc.property(anyJob, (input) => {
        const { ifFound, options, totals } = sheetOf(input);
        for (const { id, price } of ifFound) expect(total(lived(input, [], [id]).account)).toBe(totals.total + price);
        for (const { id, price, chosen } of options)
          if (!chosen) expect(total(lived(input, [id], []).agreed.sheet)).toBe(totals.total + price);
      }),
      runs(150),
    );
  });

  it("several come to the lower of their promises and of the price of the set; rounded tax can leave a unit less", () => {
    fc.assert(
      fc.property(anyJob, fc.nat(255), fc.nat(255), (input, takes, finds) => {
        const { ifFound, options } = sheetOf(input);
        const taken = some(
          takes,
          options.filter(({ chosen }) => !chosen),
        );
        const found = some(finds, ifFound);
        const { issued, agreed, account } = lived(input, taken, found);
        const chosen = options.flatMap((option) => (option.chosen || taken.includes(option.id) ? [option.id] : []));
        const optionsOnly = Math.min(total(issued) + prices(options, taken), total(sheetOf(withChoices(input, chosen))));
        expect(optionsOnly - total(agreed.sheet)).toBeOneOf([0, 1]);
        const promised = total(agreed.sheet) + prices(agreed.sheet.ifFound, found);
        const fixed = input.policy?.pricing?.is === "fixed price";
        const set = total(sheetOf(withFound(withChoices(input, chosen), fixed ? [] : found)));
        expect(Math.min(promised, set) - total(account)).toBeOneOf([0, 1]);
        // As the paper that went out says it, whatever was taken meanwhile.
        expect(total(account)).toBeLessThanOrEqual(total(issued) + prices(options, taken) + prices(ifFound, found));
      }),
      runs(300),
    );
  });

  it("under a least charge two that were free each stay free together, and the paper says what was taken off", () => {
    const rateBook: RateBook = { ...KEPT, billing: { incrementMinutes: 0, minimumCharge: 3000, minutes: "expected" } };
    const input = job({
      rateBook,
      items: [
        item("whole"),
        item("a", { operation: "adjust", certainty: possible }),
        item("b", { operation: "clean", certainty: { ...possible, group: "g" }, count: 9 }),
      ],
    });
    const { ifFound } = sheetOf(input);
    const { account } = lived(input, [], ["a", "g"]);
    expect(total(account)).toBe(3000 + sum(ifFound.map(({ price }) => price)));
    expect(account.adjustments.map(({ sort, charge }) => [sort, charge])).toEqual([["promised price", false]]);
    expect(account.adjustments[0]).toMatchObject({ taxClass: "labour", from: [{ is: "rule", rule: "promised price" }] });
    expect(total(account)).toBeLessThan(total(sheetOf(withFound(input, ["a", "g"]))));
  });

  it("an option costs what it would beside the work that stays, whatever the paper says beside the work struck out", () => {
    const rateBook: RateBook = { ...KEPT, billing: { incrementMinutes: 0, minimumCharge: 3000, minutes: "expected" } };
    const four = { count: 4, certainty: optional };
    const input = job({ rateBook, items: [item("whole"), item("dear", { count: 9 }), item("a", four), item("b", four)] });
    const issued = sheetOf(input);
    // Beside the dear work each is charged; alone with the first either is within the least charge.
    expect(issued.options.every(({ price }) => price > 1000)).toBe(true);
    const agreed = pricedSet(input, { chosen: ["a", "b"], struck: ["dear"] }, issued);
    expect("is" in agreed || total(agreed.sheet)).toBe(3000);
  });

  it("of two behind one panel the set is the lower, and nothing is taken off", () => {
    const input = job({
      rateBook: KEPT,
      items: [item("whole"), on("panel", "a", { certainty: possible }), on("loom", "b", { certainty: possible })],
    });
    const { account, issued } = lived(input, [], ["a", "b"]);
    expect(total(account)).toBe(total(sheetOf(withFound(input, ["a", "b"]))));
    expect(total(account)).toBeLessThan(total(issued) + sum(issued.ifFound.map(({ price }) => price)));
    expect(account.adjustments).toEqual([]);
  });

  it("what was agreed is never dearer because less of it was done", () => {
    fc.assert(
      fc.property(anyJob, fc.nat(6), (input, left) => {
        const sheet = sheetOf(input);
        const job = { found: [], done: { [`w${left}`]: 0 }, log: { time: [], parts: [] } };
        const result = finalAccount(
          { revisions: [{ revision: 1, input, sheet }], ...job },
          {
            ...{ basis: "fixed price", on: "2026-11-28", payments: [], warrantyDays: 0, oldParts: { is: "returned" } },
          },
        );
        if (!result.ok) throw new Error(JSON.stringify(result.problems));
        expect(total(result.account)).toBeLessThanOrEqual(total(sheet));
      }),
      runs(100),
    );
  });
});
