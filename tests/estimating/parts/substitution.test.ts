/** Limits and their sources in fixtures/published/iec-60384-4.json; parts and items: demo. */
import { describe, expect, it } from "vitest";
import keyboard from "../../../fixtures/demo/string-organ-keyboard.json";
import published from "../../../fixtures/published/iec-60384-4.json";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput, OriginalPart, PartKind, PartType, WorkItem } from "../../../src/estimating/input.js";
import { DERATING, substitutionWarnings } from "../../../src/estimating/parts/substitution.js";

const type = (id: string, given: Partial<PartType>): PartType => ({
  id,
  name: id,
  family: "capacitor",
  leads: 2,
  typicalCost: 50,
  source: { basis: "demo" },
  ...given,
});
const partTypes = [
  type("electrolytic", { polarised: true, dielectric: "aluminium" }),
  type("bipolar", { dielectric: "aluminium" }),
  type("tantalum", { polarised: true, dielectric: "tantalum" }),
  type("film", { dielectric: "film" }),
  type("ceramic", {}),
  type("resistor", { family: "resistor" }),
  type("valve", { family: "valve" }),
];

const warn = (original: OriginalPart, kind: Partial<PartKind> & { type: string }) => {
  const item: WorkItem = {
    id: "item",
    operation: "replace",
    count: 1,
    part: { kind: "new" },
    certainty: { is: "planned" },
    original,
  };
  return substitutionWarnings([item], [{ id: "new", name: "New part", ...kind }], { partTypes });
};
const names = (...given: Parameters<typeof warn>) => warn(...given).map(({ is }) => is);

describe("voltage", () => {
  it("warns of a lower rating than the original, also where it is part of the marking", () => {
    expect(warn({ ratedVolts: 450 }, { type: "electrolytic", ratedVolts: 400 })).toEqual([
      { is: "lower voltage", item: "item", part: "New part", original: 450, replacement: 400 },
    ]);
    expect(names({ value: "8 MFD 450V" }, { type: "electrolytic", value: "10uF/400V" })).toEqual(["lower voltage"]);
    expect(names({ ratedVolts: 450 }, { type: "electrolytic", ratedVolts: 450 })).toEqual([]);
    expect(names({ ratedVolts: 450 }, { type: "electrolytic" })).toEqual([]);
  });

  it.each(published.derating)(
    "$type at $working V of $rated V: over is $over ($source; $basis)",
    ({ type, working, rated, over }) => {
      const warnings = warn({ workingVolts: working }, { type, ratedVolts: rated });
      expect(warnings).toEqual(
        over
          ? [
              {
                is: "derating",
                item: "item",
                part: "New part",
                working,
                rated,
                limitPercent: DERATING[type === "electrolytic" ? "aluminium" : (type as "tantalum" | "film")].limitPercent,
              },
            ]
          : [],
      );
    },
  );

  it("holds a capacitor of no stated dielectric to its rating, and nothing else to any", () => {
    expect(names({ workingVolts: 51 }, { type: "ceramic", ratedVolts: 50 })).toEqual(["derating"]);
    expect(names({ workingVolts: 51 }, { type: "valve", ratedVolts: 50 })).toEqual([]);
  });
});

describe("polarity and grade", () => {
  it("warns of a polarised part where the original is not", () => {
    expect(names({ type: "bipolar" }, { type: "electrolytic" })).toEqual(["polarised"]);
    expect(names({ type: "film" }, { type: "tantalum" })).toEqual(["polarised"]);
    expect(names({ type: "electrolytic" }, { type: "bipolar" })).toEqual([]);
    expect(names({}, { type: "electrolytic" })).toEqual([]);
  });

  it("warns of it for a part counted by type as well", () => {
    const item: WorkItem = {
      id: "item",
      operation: "replace",
      count: 1,
      part: { type: "electrolytic" },
      certainty: { is: "planned" },
      original: { type: "bipolar" },
    };
    expect(substitutionWarnings([item], [], { partTypes })).toEqual([{ is: "polarised", item: "item", part: "electrolytic" }]);
  });

  it("warns of general purpose where audio grade is asked", () => {
    expect(names({ audioGrade: true }, { type: "electrolytic" })).toEqual(["not audio grade"]);
    expect(names({ audioGrade: true }, { type: "electrolytic", audioGrade: true })).toEqual([]);
  });
});

describe("value", () => {
  it("warns when it is off by more than the original's stated tolerance", () => {
    expect(warn({ value: "100n", tolerancePercent: 10 }, { type: "film", value: "124" })).toEqual([
      { is: "value off", item: "item", part: "New part", offPercent: 20, tolerancePercent: 10 },
    ]);
    expect(names({ value: "100n", tolerancePercent: 20 }, { type: "film", value: "124" })).toEqual([]);
    expect(names({ value: "100n", tolerancePercent: 20 }, { type: "film", value: "80n" })).toEqual([]);
  });

  it("goes by the tolerance marked on the original when none is stated", () => {
    expect(warn({ value: "104Z" }, { type: "film", value: "70n" })).toEqual([
      { is: "value off", item: "item", part: "New part", offPercent: 30, tolerancePercent: 20 },
    ]);
    expect(names({ value: "104Z" }, { type: "film", value: "150n" })).toEqual([]);
    expect(names({ value: "104J" }, { type: "film", value: "110n" })).toEqual(["value off"]);
  });

  it("goes by what is usual for the original's type when nothing is marked (common practice, no source)", () => {
    expect(names({ value: "8 MFD" }, { type: "electrolytic", value: "10u" })).toEqual([]);
    expect(names({ value: "8 MFD" }, { type: "electrolytic", value: "15u" })).toEqual(["value off"]);
    expect(names({ value: "8 MFD" }, { type: "electrolytic", value: "4u7" })).toEqual(["value off"]);
    expect(names({ value: ".05 MFD" }, { type: "film", value: "47n" })).toEqual([]);
    expect(names({ value: "250k" }, { type: "resistor", value: "270k" })).toEqual([]);
    expect(names({ value: "250k" }, { type: "resistor", value: "330k" })).toEqual(["value off"]);
  });

  it("does not mind how the same value is written", () => {
    expect(names({ value: "104K", tolerancePercent: 0 }, { type: "film", value: "0.1 uF" })).toEqual([]);
    expect(names({ value: "4,7k", tolerancePercent: 0 }, { type: "resistor", value: "4K7" })).toEqual([]);
  });

  it("says which marking it could not read, unless both are written alike", () => {
    expect(warn({ value: "4,700 uF" }, { type: "electrolytic", value: "??" })).toEqual([
      { is: "value unreadable", item: "item", part: "New part", marking: "4,700 uF" },
      { is: "value unreadable", item: "item", part: "New part", marking: "??" },
    ]);
    expect(names({ value: "470 " }, { type: "resistor", value: "470" })).toEqual([]);
    expect(names({ value: "EF86" }, { type: "valve", value: "6267" })).toEqual([]);
    expect(names({ value: "??" }, { type: "electrolytic" })).toEqual([]);
  });

  it("does not compare resistance with capacitance", () => {
    expect(names({ type: "resistor", value: "4k7" }, { type: "film", value: "47n" })).toEqual([]);
  });

  it("takes a link for off by all, from nothing but another", () => {
    expect(names({ value: "0R" }, { type: "resistor", value: "000" })).toEqual([]);
    expect(names({ value: "0R" }, { type: "resistor", value: "1R" })).toEqual(["value off"]);
  });
});

describe("items that cannot be compared", () => {
  it("are passed over", () => {
    const item: WorkItem = { id: "item", operation: "replace", count: 1, certainty: { is: "planned" } };
    const original = { value: "100n" };
    expect(
      substitutionWarnings(
        [
          item,
          { ...item, original },
          { ...item, original, part: { kind: "gone" } },
          { ...item, original, part: { type: "gone" } },
        ],
        [],
        { partTypes },
      ),
    ).toEqual([]);
  });
});

describe("the sheet", () => {
  it("carries the warnings of every item", () => {
    const demo = keyboard as unknown as EstimateInput;
    const kind = demo.kinds!.find(({ ratedVolts }) => ratedVolts !== undefined)!;
    const item = { ...demo.items[0]!, id: "swap", part: { kind: kind.id }, original: { ratedVolts: kind.ratedVolts! + 1 } };
    const outcome = estimate({ ...demo, items: [item] });
    expect(outcome.ok && outcome.sheet.warnings).toContainEqual({
      is: "lower voltage",
      item: "swap",
      part: kind.name,
      original: kind.ratedVolts! + 1,
      replacement: kind.ratedVolts,
    });
  });
});
