import { describe, expect, it } from "vitest";
import type { Billing, EstimateInput } from "../../../src/estimating/input.js";
import { item, lineOf, on, sheet, sum } from "../cast/organ.js";
import { about, PLAIN } from "../cast/plainBook.js";

const billed = (billing: Partial<Billing>, given: Partial<EstimateInput>) =>
  sheet({ ...given, rateBook: { ...PLAIN, ...given.rateBook, billing: { ...PLAIN.billing, ...billing } } });

describe("the billing step", () => {
  it("brings the minutes of each attended class up, access among them", () => {
    // Access to the rail 21, cleaning 7: 28 bench minutes. Adjusting: 15 alignment minutes.
    const items = [on("rail", "a"), on("rail", "b", { operation: "adjust" }), item("c", { operation: "soak" })];
    const result = billed({ incrementMinutes: 20 }, { items });
    expect(lineOf(result, "rounding:bench")).toMatchObject({
      minutes: 12,
      amount: 1200,
      why: { rule: "increment", minutes: 28, increment: 20 },
    });
    expect(lineOf(result, "rounding:alignment")).toMatchObject({ minutes: 5, amount: 1000 });
    expect(result.lines.map(({ id }) => id)).not.toContain("rounding:soak");
    expect(result.time).toMatchObject({ attended: 43, unattended: 60, billed: 120 });
  });

  it("adds nothing when the minutes are a whole number of steps", () => {
    const result = billed({ incrementMinutes: 7 }, { items: [on("rail", "a")] });
    expect(result.lines.filter(({ sort }) => sort === "labour rounding")).toEqual([]);
  });

  it("works in thousandths of a minute", () => {
    const items = [item("a", { minutes: about(0.1) })];
    expect(lineOf(billed({ incrementMinutes: 0.3 }, { items }), "rounding:bench")).toMatchObject({ minutes: 0.1 });
  });
});

describe("the minimum charge", () => {
  it("brings labour and access up to it, before tax, with a line of its own", () => {
    const result = billed({ minimumCharge: 5000 }, { items: [on("rail", "a")] });
    // 21 + 7 minutes are 28.00.
    expect(lineOf(result, "minimum")).toMatchObject({ amount: 2200, why: { rule: "minimum", minimum: 5000 } });
    expect(result.totals.total).toBe(5000);
  });

  it("counts the billing step and unattended labour as labour", () => {
    const items = [on("rail", "a"), item("c", { operation: "soak" })];
    const result = billed({ minimumCharge: 5000, incrementMinutes: 30 }, { items });
    expect(sum(result.lines.map(({ amount }) => amount))).toBe(5000);
    expect(lineOf(result, "minimum").amount).toBe(5000 - 3000 - 600);
  });

  it("is not charged where it is reached, nor where there is no labour", () => {
    expect(billed({ minimumCharge: 2800 }, { items: [on("rail", "a")] }).lines.map(({ id }) => id)).not.toContain("minimum");
    expect(billed({ minimumCharge: 2800 }, { items: [] }).lines).toEqual([]);
  });
});

describe("pulling parts from a donor unit", () => {
  it("is access labour with a line of its own, which the condition of the owner's unit does not lengthen", () => {
    const result = sheet({
      unit: { maker: "Threnwick", model: "Cadence 3", grade: "worn" },
      items: [item("a", { operation: "replace", count: 2, part: { kind: "divider" } })],
      kinds: [{ id: "divider", type: "dip-40", name: "Octave divider" }],
      offers: [
        {
          id: "o1",
          kind: "divider",
          source: "Ember Row Salvage",
          on: "2026-11-01",
          currency: "EUR",
          price: 500,
          packSize: 1,
          leadDays: 4,
          state: "donor pull",
          pullMinutes: 12.5,
        },
      ],
    });
    expect(lineOf(result, "pull:o1")).toMatchObject({
      sort: "donor pull",
      taxClass: "labour",
      count: 2,
      minutes: 25,
      amount: 2500,
    });
    expect(lineOf(result, "pull:o1").from).toEqual([
      { is: "item", id: "a" },
      { is: "offer", id: "o1", source: "Ember Row Salvage", on: "2026-11-01" },
      { is: "rate book", entry: "/labourClasses/0" },
    ]);
    expect(result.time.attended).toBe((8 + 2 * 22) * 1.5 + 25);
  });
});
