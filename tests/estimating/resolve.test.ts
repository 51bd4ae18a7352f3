import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { estimate } from "../../src/estimating/estimate.js";
import type { EstimateInput, WorkItem } from "../../src/estimating/input.js";
import { behindOf, resolve } from "../../src/estimating/resolve.js";
import { lineNote } from "../../src/wording/line.js";
import { whyText } from "../../src/wording/reasons.js";

const base = JSON.parse(readFileSync(new URL("../../fixtures/cases/base.json", import.meta.url), "utf8")) as EstimateInput;
const services = [
  {
    id: "yearly",
    name: "Yearly service",
    price: 6000,
    work: [
      { operation: "inspect", count: 1 },
      { own: { name: "Air it", minutes: { low: 1, likely: 2, high: 3 } }, count: 2 },
      { operation: "replace", count: 1, part: { type: "electrolytic" } },
    ],
    source: { basis: "demo" },
  },
] as const;
const input = (items: readonly WorkItem[], more: Partial<EstimateInput> = {}): EstimateInput => ({
  ...base,
  rateBook: { ...base.rateBook, services },
  items,
  ...more,
});
const certainty = fc.constantFrom<WorkItem["certainty"]>(
  { is: "planned" },
  { is: "if found", probability: 0.3 },
  { is: "optional", chosen: true },
  { is: "optional", chosen: false },
);
const work: fc.Arbitrary<Omit<WorkItem, "id" | "count" | "certainty">> = fc.oneof(
  fc.constantFrom("inspect", "clean-pots").map((operation) => ({ operation })),
  fc.integer({ min: 0, max: 90 }).map((likely) => ({ own: { name: "Own", minutes: { low: 0, likely, high: 90 } } })),
  fc.integer({ min: 0, max: 9000 }).map((price) => ({ own: { name: "At a price", price } })),
  fc.constant({ service: "yearly" }),
  fc.integer({ min: 0, max: 9000 }).map((cost) => ({
    operation: "replace",
    part: { own: { name: "Chip", type: "ic-16", cost, packSize: 3, leadDays: 4 } },
  })),
  fc.constant({ operation: "replace", part: { own: { name: "Lamp", type: "electrolytic", broughtByOwner: true as const } } }),
  fc.integer({ min: 0, max: 900 }).map((cost) => ({
    operation: "replace",
    part: { type: "electrolytic" },
    partPrice: { cost, reason: "dearer" },
  })),
);
const items = fc
  .array(fc.record({ work, certainty, count: fc.integer({ min: 0, max: 4 }) }), { maxLength: 7 })
  .map((all) => all.map(({ work: said, ...rest }, at): WorkItem => ({ id: `w${at}`, ...said, ...rest })));

describe("what is said in own words", () => {
  it("leaves an input that has none untouched, the very object", () => {
    const plain = input([{ id: "a", operation: "inspect", count: 1, certainty: { is: "planned" } }]);
    expect(resolve(plain)).toBe(plain);
  });

  it("is resolved once: resolving again changes nothing", () => {
    fc.assert(
      fc.property(items, (all) => {
        const once = resolve(input(all));
        expect(resolve(once)).toBe(once);
      }),
    );
  });

  it("comes to the same sheet whether it was resolved before or not, and after being kept as JSON", () => {
    fc.assert(
      fc.property(items, (all) => {
        const given = input(all);
        const kept = JSON.parse(JSON.stringify(resolve(given))) as EstimateInput;
        expect(estimate(kept)).toEqual(estimate(given));
      }),
    );
  });

  it("adds up: lines sum to the total, work behind a service bears no charge, the order of the lines changes no figure", () => {
    fc.assert(
      fc.property(items, (all) => {
        const outcome = estimate(input(all));
        if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
        const { lines, totals, behind = [] } = outcome.sheet;
        expect(lines.reduce((sum, { amount }) => sum + amount, 0)).toBe(totals.linesNet);
        expect(behind.every(({ amount }) => amount === 0)).toBe(true);
        const turned = estimate(input([...all].reverse()));
        expect(turned.ok && turned.sheet.totals).toEqual(totals);
      }),
    );
  });

  it("keeps what is behind a service with it: chosen, found and struck as one", () => {
    const made = resolve(input([{ id: "a", service: "yearly", count: 2, certainty: { is: "optional", chosen: false } }]));
    expect(made.items.map(({ id, count, certainty: { is } }) => [id, count, is])).toEqual([
      ["a", 2, "optional"],
      ["a/1", 2, "optional"],
      ["a/2", 4, "optional"],
      ["a/3", 2, "optional"],
    ]);
    expect(new Set(made.items.map(({ certainty: c }) => (c.is === "optional" ? c.group : undefined)))).toEqual(new Set(["a"]));
    expect(made.items.map(behindOf)).toEqual([undefined, "a", "a", "a"]);
    const outcome = estimate(made);
    expect(outcome.ok && outcome.sheet.options).toMatchObject([{ id: "a", names: ["Yearly service × 2"], net: 12000 }]);
  });

  it("takes no time into the bill beside a fixed price, and keeps it for the days", () => {
    const minutes = { low: 200, likely: 300, high: 500 };
    const outcome = estimate(
      input([{ id: "a", own: { name: "Align", price: 5000, minutes }, count: 1, certainty: { is: "planned" } }]),
    );
    expect(outcome.ok && outcome.sheet.time).toMatchObject({ attended: 300, billed: 0 });
    expect(outcome.ok && outcome.sheet.totals.linesNet).toBe(5000);
  });

  it("counts time that is worth more than the fixed price as the shop's loss", () => {
    const policy = { pricing: { is: "time and parts with ceiling", confidencePercent: 80 } } as const;
    const risk = (price: number) => {
      const all: WorkItem[] = [
        {
          id: "a",
          own: { name: "Align", price, minutes: { low: 80, likely: 100, high: 160 } },
          count: 1,
          certainty: { is: "planned" },
        },
      ];
      const outcome = estimate(input(all, { policy }), { risk: true });
      if (!outcome.ok) throw new Error("problems");
      return outcome.sheet.risk!;
    };
    expect(risk(5000).expected).toBe(risk(10_000).expected);
    expect(risk(15_000).expected).toBe(risk(10_000).expected + 5000);
  });
});

describe("what the owner reads below a line", () => {
  it("says why a part has another price, and never what the shop pays", () => {
    const reason = "the usual one no longer fits";
    const part: WorkItem = {
      id: "a",
      operation: "replace",
      count: 1,
      part: { type: "electrolytic" },
      certainty: { is: "planned" },
    };
    const given = input([{ ...part, partPrice: { cost: 120, reason, source: "By post" } }]);
    const outcome = estimate(given);
    if (!outcome.ok) throw new Error("problems");
    const line = outcome.sheet.lines.find(({ sort }) => sort === "part")!;
    const tongue = { locale: "en-GB", currency: "GBP" };
    expect(lineNote(line, given, tongue)).toBe(reason);
    expect(whyText(line.why!, tongue)).toBe(`Catalogue price £0.20, this price £1.20 (By post): ${reason}`);
    const brought = input([{ ...part, part: { own: { name: "Lamp", type: "electrolytic", broughtByOwner: true } } }]);
    const other = estimate(brought);
    if (!other.ok) throw new Error("problems");
    const lamp = other.sheet.lines.find(({ sort }) => sort === "part")!;
    expect([lamp.amount, lineNote(lamp, brought, tongue)]).toEqual([0, "Brought by the owner; no warranty of the shop on it."]);
  });
});
