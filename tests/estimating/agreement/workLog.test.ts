import { describe, expect, it } from "vitest";
import { withChoices } from "../../../src/estimating/agreement/choices.js";
import { agreedLimit } from "../../../src/estimating/agreement/limit.js";
import { type Agreed, type LoggedWork, logged, mayLog, unagreed } from "../../../src/estimating/agreement/workLog.js";
import type { EstimateInput, Policy } from "../../../src/estimating/input.js";
import { job, on } from "../cast/organ.js";
import { TAXED } from "../cast/plainBook.js";
import { sheetOf } from "./demo.js";

/** 49.00, with tax 58.80; 10 % headroom: 64.68. One bench minute is 1.00, one of alignment 2.00. */
const input = (policy: Policy = {}): EstimateInput =>
  job({
    items: [
      on("top", "a", { count: 9 }),
      on("top", "tune", { operation: "adjust", certainty: { is: "optional", chosen: false } }),
    ],
    policy,
    rateBook: TAXED,
  });
const revision = (agreed: EstimateInput) => ({ input: agreed, sheet: sheetOf(agreed) });
const agreedTo = (current: EstimateInput): Agreed => ({
  ...revision(withChoices(current, [])),
  limit: agreedLimit(withChoices(current, []))!,
  unagreed: unagreed(current, withChoices(current, [])),
});

describe("what the work log comes to", () => {
  it("is minutes at the rate of the item's operation, opening at that of access, and parts at their price, with tax", () => {
    const log: LoggedWork[] = [{ minutes: 18 }, { item: "a", minutes: 20.5, parts: 250 }, { item: "tune", minutes: 3 }];
    expect(logged(input(), revision(input()), log)).toMatchObject({ withoutTax: 1800 + 2050 + 250 + 600, total: 5640 });
  });

  it("takes the class really worked at where the entry names one", () => {
    const log: LoggedWork[] = [{ item: "a", minutes: 10, labourClass: "alignment" }];
    expect(logged(input(), revision(input()), log).withoutTax).toBe(2000);
  });

  it("is what a service is sold for, however long it took", () => {
    const yearly = { id: "yearly", name: "Yearly service", price: 9000, work: [{ operation: "clean", count: 1 }] };
    const rateBook = { ...TAXED, services: [{ ...yearly, source: { basis: "demo" } as const }] };
    const served = job({ items: [{ id: "s", service: "yearly", count: 1, certainty: { is: "planned" } }], rateBook });
    expect(logged(served, revision(served), [{ item: "s", minutes: 45 }]).withoutTax).toBe(9000);
    expect(logged(served, revision(served), [{ item: "s", minutes: 2 }]).withoutTax).toBe(9000);
  });

  it("is nothing before anything is logged; what is then used brings its fees, rush, sundries and freight", () => {
    const rushed = input({ rush: true, diagnosis: true });
    const book: EstimateInput["rateBook"] = {
      ...TAXED,
      parts: { ...TAXED.parts, sundries: { percentOfParts: 10, percentOfLabour: 5 } },
    };
    const agreed = revision({ ...rushed, rateBook: book });
    const freight = { id: "freight:post", sort: "freight", charge: true, amount: 700 } as const;
    const sheet = {
      ...agreed.sheet,
      adjustments: [
        ...agreed.sheet.adjustments,
        { ...freight, taxCategory: book.tax.freight, taxClass: "freight", from: [] } as const,
      ],
    };
    const used = (log: readonly LoggedWork[]) => logged(agreed.input, { ...agreed, sheet }, log).withoutTax;
    expect(logged(agreed.input, { ...agreed, sheet }, [])).toMatchObject({ total: 0, withoutTax: 0 });
    /** Ten minutes at 1.00, the bench fee of 40.00, a rush of 25 %, sundries of 5 % of the labour. */
    expect(used([{ item: "a", minutes: 10 }])).toBe(1000 + 4000 + 250 + 50);
    /** A part: sundries of 10 % of it, and the freight agreed. */
    expect(used([{ item: "a", parts: 300 }])).toBe(300 + 4000 + 30 + 700);
  });
});

describe("a work log entry", () => {
  const current = input();
  const agreed = agreedTo(current);

  it("may be made for agreed work up to the limit, to the minute", () => {
    const log: LoggedWork[] = [{ minutes: 18 }, { item: "a", minutes: 30 }];
    /** 48.00 so far; 5.90 more is 53.90, with tax 64.68. */
    expect(mayLog(current, agreed, log, { item: "a", minutes: 5.9 })).toMatchObject({ is: "within", amount: { total: 6468 } });
    expect(mayLog(current, agreed, log, { item: "a", minutes: 6 })).toMatchObject({
      is: "above limit",
      by: 12,
      amount: { total: 6480 },
    });
  });

  it("is refused for an option the owner left, whatever it costs", () => {
    expect(mayLog(current, agreed, [], { item: "tune", minutes: 0 })).toEqual({
      is: "not agreed",
      item: "tune",
      why: "option not chosen",
    });
  });

  it("is refused for work added since, until it is agreed", () => {
    const later: EstimateInput = { ...current, items: [...current.items, on("rail", "x1")] };
    const stands = { ...agreed, unagreed: unagreed(later, withChoices(current, [])) };
    expect(mayLog(later, stands, [], { item: "x1", minutes: 1 })).toMatchObject({
      is: "not agreed",
      why: "not in what was agreed",
    });
    expect(
      mayLog(later, { ...stands, unagreed: unagreed(later, withChoices(later, [])) }, [], { item: "x1", minutes: 1 }).is,
    ).toBe("within");
  });

  it("counts entries that were overridden: the next one has so much less room", () => {
    const overridden: LoggedWork[] = [{ item: "tune", minutes: 20 }];
    expect(mayLog(current, agreed, overridden, { item: "a", minutes: 14 })).toMatchObject({ is: "above limit" });
    expect(mayLog(current, agreed, [], { item: "a", minutes: 14 })).toMatchObject({ is: "within" });
  });

  it("is measured without tax in California: parts passing the estimate by one cent are refused", () => {
    const californian = input({ profile: "us-ca" });
    const stands = agreedTo(californian);
    expect(mayLog(californian, stands, [], { item: "a", parts: 4900 }).is).toBe("within");
    expect(mayLog(californian, stands, [], { item: "a", parts: 4901 })).toMatchObject({ is: "above limit", by: 1 });
  });
});
