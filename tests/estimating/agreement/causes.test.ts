import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { CAUSES, type Cause, causesOf, moneyByCause } from "../../../src/estimating/agreement/causes.js";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput, RateBook, WorkItem } from "../../../src/estimating/input.js";
import { totalOf } from "../../../src/estimating/pricing/total.js";
import { runs } from "../../setup/runs.js";
import { AMPLIFIER, COUNTS, DEMO, ECHO, ORGAN, revision, sheetOf } from "./demo.js";

const total = (input: EstimateInput) => sheetOf(input).totals.total;

/** Money by cause, with its sum proved first. */
function causes(before: EstimateInput, after: EstimateInput): Partial<Record<Cause, number>> {
  const amounts = moneyByCause(before, after)!;
  expect(amounts.reduce((sum, { amount }) => sum + amount, 0)).toBe(total(after) - total(before));
  return Object.fromEntries(amounts.map(({ cause, amount }) => [cause, amount]));
}

const withItem = (input: EstimateInput, id: string, change: (item: WorkItem) => WorkItem): EstimateInput => ({
  ...input,
  items: input.items.map((item) => (item.id === id ? change(item) : item)),
});
const plus = (input: EstimateInput, item: WorkItem): EstimateInput => ({ ...input, items: [...input.items, item] });
const without = (input: EstimateInput, id: string): EstimateInput => ({
  ...input,
  items: input.items.filter((item) => item.id !== id),
});
const rated = (input: EstimateInput, change: (book: RateBook) => RateBook): EstimateInput => ({
  ...input,
  rateBook: change(input.rateBook),
});

const CRACKED: WorkItem = {
  id: "x1",
  assembly: "transformer",
  operation: "reflow",
  count: 4,
  certainty: { is: "planned" },
  reason: "cracked joints found when the shelf came out",
};

describe("money by cause", () => {
  it("sums exactly to the difference of the totals, for any two states of a job", () => {
    let compared = 0;
    let together = 0;
    fc.assert(
      fc.property(revision, ({ before, after }) => {
        const [was, is] = [estimate(before), estimate(after)];
        const amounts = moneyByCause(before, after);
        if (!was.ok || !is.ok) {
          expect(amounts).toBeUndefined();
          return;
        }
        compared += 1;
        expect(amounts!.reduce((sum, { amount }) => sum + amount, 0)).toBe(is.sheet.totals.total - was.sheet.totals.total);
        const named = amounts!.flatMap((one) => [one.cause, ...(one.together ?? [])]);
        expect(new Set(named).size).toBe(named.length);
        if (amounts!.some((one) => one.together)) together += 1;
      }),
      runs(120),
    );
    expect(compared).toBeGreaterThan(runs(24).numRuns);
    expect(together).toBeLessThan(compared / 4);
  });

  it("is the same money back, with the other sign, when one thing is undone", () => {
    for (const job of DEMO) {
      const there = moneyByCause(job, plus(job, { ...job.items[1]!, id: "x1", certainty: { is: "planned" } }))!;
      const back = moneyByCause(plus(job, { ...job.items[1]!, id: "x1", certainty: { is: "planned" } }), job)!;
      expect(there.map(({ cause }) => cause)).toEqual(["extra faults"]);
      expect(back).toEqual([{ cause: "dropped", amount: -there[0]!.amount, items: ["x1"] }]);
    }
  });

  it("puts an extra fault, its parts and its own access under extra faults", () => {
    const after = plus(ORGAN, CRACKED);
    expect(causes(ORGAN, after)).toEqual({ "extra faults": total(after) - total(ORGAN) });
    expect(moneyByCause(ORGAN, after)![0]!.items).toEqual(["x1"]);
  });

  it("charges an extra fault only for what it adds to the work that stands", () => {
    const onOpenBoard: WorkItem = { ...CRACKED, assembly: "supply" };
    const access = (input: EstimateInput) => sheetOf(input).access.minutes.likely;
    expect(access(plus(ORGAN, onOpenBoard))).toBe(access(ORGAN));
    const both = plus(without(ORGAN, "w34"), onOpenBoard);
    expect(causes(ORGAN, both)).toEqual({
      dropped: total(without(ORGAN, "w34")) - total(ORGAN),
      "extra faults": total(both) - total(without(ORGAN, "w34")),
    });
  });

  it("puts what was agreed as possible and proved necessary under found, at the price printed for it", () => {
    const printed = sheetOf(ORGAN).ifFound.find(({ id }) => id === "w06")!.price;
    const after = withItem(ORGAN, "w06", (item) => ({ ...item, certainty: { is: "planned" } }));
    expect(causes(ORGAN, after)).toEqual({ found: printed });
  });

  it("tells a found item's agreed price from what was counted on top", () => {
    const printed = sheetOf(ORGAN).ifFound.find(({ id }) => id === "w06")!.price;
    const after = withItem(ORGAN, "w06", (item) => ({ ...item, count: 2, certainty: { is: "planned" } }));
    const amounts = causes(ORGAN, after);
    expect(amounts.found).toBe(printed);
    expect(amounts.corrected).toBeGreaterThan(0);
    expect(Object.keys(amounts)).toEqual(["found", "corrected"]);
  });

  it("puts an option taken up or left under choice, at its printed price", () => {
    const [left] = sheetOf(ORGAN).options.filter(({ chosen }) => chosen);
    const declined = withItem(ORGAN, left!.items[0]!, (item) => ({ ...item, certainty: { is: "optional", chosen: false } }));
    expect(causes(ORGAN, declined)).toEqual({ choice: -left!.price });
  });

  it("calls an option that became planned work a choice, and what was found a find", () => {
    const option = { ...CRACKED, certainty: { is: "optional", chosen: false } } as const;
    const possible = { ...CRACKED, certainty: { is: "if found", probability: 0.2 } } as const;
    expect([causesOf(option, CRACKED), causesOf(possible, CRACKED)]).toEqual([["choice"], ["found"]]);
  });

  it("puts a corrected count under corrected, whether up or down", () => {
    const more = withItem(ORGAN, "w08", (item) => ({ ...item, count: 5 }));
    expect(causes(ORGAN, more)).toEqual({ corrected: total(more) - total(ORGAN) });
    expect(causes(more, ORGAN)).toEqual({ corrected: total(ORGAN) - total(more) });
  });

  it("puts a dearer offer, a new rate and a new tax under prices, on what was agreed", () => {
    const [offer] = ECHO.offers!;
    const dearer: EstimateInput = { ...ECHO, offers: ECHO.offers!.map((each) => ({ ...each, price: each.price * 2 })) };
    expect(offer).toBeDefined();
    expect(causes(ECHO, dearer)).toEqual({ prices: total(dearer) - total(ECHO) });
    const taxed = rated(ECHO, (book) => ({
      ...book,
      tax: { ...book.tax, categories: book.tax.categories.map((each) => ({ ...each, percent: 25 })) },
    }));
    expect(causes(ECHO, taxed)).toEqual({ prices: total(taxed) - total(ECHO) });
    const set: EstimateInput = { ...COUNTS, policy: { ...COUNTS.policy, scarcityByType: { electrolytic: "donor only" } } };
    expect(causes(COUNTS, set)).toEqual({ prices: total(set) - total(COUNTS) });
  });

  it("puts a worse condition under condition, and a mere note about it under nothing", () => {
    const worse: EstimateInput = { ...AMPLIFIER, unit: { ...AMPLIFIER.unit, grade: "salvage" } };
    expect(causes(AMPLIFIER, worse)).toEqual({ condition: total(worse) - total(AMPLIFIER) });
    const noted: EstimateInput = { ...AMPLIFIER, unit: { ...AMPLIFIER.unit, found: "smells of smoke" } };
    expect(causes(AMPLIFIER, noted)).toEqual({});
  });

  it("puts more boards to open, or a map with more screws, under access", () => {
    const boards: EstimateInput = {
      ...COUNTS,
      boards: [...COUNTS.boards!, { size: "large", mounting: "behind another", count: 1 }],
    };
    expect(causes(COUNTS, boards)).toEqual({ access: total(boards) - total(COUNTS) });
    const opened: EstimateInput = { ...ORGAN, toOpen: ["transformer"] };
    expect(causes(ORGAN, opened)).toEqual({ access: total(opened) - total(ORGAN) });
  });

  it("puts discount, rush and storage under terms, and a deposit paid under nothing", () => {
    const rushed: EstimateInput = { ...ECHO, policy: { ...ECHO.policy, rush: true, storageDays: 4 } };
    expect(causes(ECHO, rushed)).toEqual({ terms: total(rushed) - total(ECHO) });
    const paid: EstimateInput = { ...ECHO, policy: { ...ECHO.policy, prepaid: 1000 } };
    expect(causes(ECHO, paid)).toEqual({});
  });

  it("keeps every cause apart when all happen at once", () => {
    const dearer = rated(ORGAN, (book) => ({
      ...book,
      labourClasses: book.labourClasses.map((each) => ({ ...each, ratePerHour: each.ratePerHour + 500 })),
    }));
    const found = withItem(dearer, "w06", (item) => ({ ...item, certainty: { is: "planned" } }));
    const chosen = withItem(found, "w36", (item) => ({
      ...item,
      certainty: { is: "optional", chosen: true, group: "new mains lead" },
    }));
    const counted = withItem(without(chosen, "w34"), "w08", (item) => ({ ...item, count: 7 }));
    const all: EstimateInput = {
      ...plus(counted, CRACKED),
      unit: { ...ORGAN.unit, grade: "poor" },
      toOpen: ["transformer"],
      policy: { ...ORGAN.policy, discount: { percent: 10, reason: "patience" } },
    };
    const amounts = causes(ORGAN, all);
    expect(Object.keys(amounts)).toEqual([...CAUSES]);
    expect(amounts.dropped).toBeLessThan(0);
    expect(amounts.terms).toBeLessThan(0);
  });

  it("prices a step that cannot stand yet after the one it waits for: a part that leaves the catalogue with its work", () => {
    const kind = ORGAN.items.find(({ id }) => id === "w05")!.part as { kind: string };
    const after: EstimateInput = {
      ...without(ORGAN, "w05"),
      kinds: ORGAN.kinds!.filter(({ id }) => id !== kind.kind),
      offers: ORGAN.offers!.filter((offer) => offer.kind !== kind.kind),
    };
    expect(moneyByCause(ORGAN, after)!.map(({ cause, together }) => [cause, together])).toEqual([["dropped", undefined]]);
    expect(Object.keys(causes(ORGAN, after))).toEqual(["dropped"]);
  });

  it("names the causes together that cannot be told apart: an operation replaced by another in rate book and work", () => {
    const renamed = rated(ORGAN, (book) => ({
      ...book,
      operations: book.operations.map((each) => (each.id === "inspect" ? { ...each, id: "look-over" } : each)),
    }));
    const after = withItem(renamed, "w01", (item) => ({ ...item, operation: "look-over", count: 9 }));
    expect(moneyByCause(ORGAN, after)).toEqual([
      { cause: "prices", together: ["corrected"], amount: total(after) - total(ORGAN), items: ["w01"] },
    ]);
  });

  it("is not told where one of the two has problems, or their currencies differ", () => {
    const broken = withItem(ORGAN, "w01", (item) => ({ ...item, operation: "no such thing" }));
    expect(moneyByCause(ORGAN, broken)).toBeUndefined();
    expect(moneyByCause(broken, ORGAN)).toBeUndefined();
    const euros: EstimateInput = {
      ...COUNTS,
      currency: "EUR",
      rateBook: { ...COUNTS.rateBook, currency: "EUR" },
    };
    expect(estimate(euros).ok).toBe(true);
    expect(moneyByCause(COUNTS, euros)).toBeUndefined();
  });
});

describe("the cause of an item's change", () => {
  const item = ORGAN.items.find(({ id }) => id === "w06")!;
  it.each<[string, Partial<WorkItem>, readonly string[]]>([
    ["nothing but its reason", { reason: "other words" }, []],
    ["found", { certainty: { is: "planned" } }, ["found"]],
    ["made an option", { certainty: { is: "optional", chosen: false } }, ["choice"]],
    ["likelier", { certainty: { is: "if found", probability: 0.9 } }, ["corrected"]],
    ["counted", { count: 3 }, ["corrected"]],
    ["found and counted", { certainty: { is: "planned" }, count: 3 }, ["found", "corrected"]],
  ])("%s", (_, change, expected) => {
    expect(causesOf(item, { ...item, ...change })).toEqual(expected);
  });
});

it("prices without the sheet what the sheet prices", () => {
  fc.assert(
    fc.property(revision, ({ after }) => {
      const outcome = estimate(after);
      expect(totalOf(after)).toBe(outcome.ok ? outcome.sheet.totals.total : undefined);
    }),
    runs(60),
  );
});
