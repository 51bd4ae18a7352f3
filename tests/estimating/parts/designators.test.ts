import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { groupOf, proposedType, readDesignators } from "../../../src/estimating/parts/designators.js";

const read = (text: string, seen = new Set<string>()) => readDesignators(text, seen);

describe("designators", () => {
  // Letters: IEEE 315 and ASME Y14.44, from memory.
  it.each([
    ["C1", { prefix: "C", count: 1 }],
    ["C1, C2 C3;C4/C5", { prefix: "C", count: 5 }],
    ["r1-r4, R9", { prefix: "R", count: 5 }],
    ["C1-C3", { prefix: "C", count: 3 }],
    ["IC1A, IC1B", { prefix: "IC", count: 2 }],
    ["Q1 to Q3", { prefix: "Q", count: 3 }],
    ["", { count: 0 }],
  ])("%j are counted", (text, wanted) => {
    expect(read(text)).toEqual(wanted);
  });

  it.each([
    ["C", "unreadable"],
    ["12", "unreadable"],
    ["C4-C2", "range backwards"],
    ["C1-R2", "letters differ"],
    ["C1, R2", "letters differ"],
    ["C1, C1", "twice"],
    ["C1-C3, C2", "twice"],
    ["C1-C99999", "unreadable"],
  ])("%j are refused as %s", (text, is) => {
    expect(read(text)).toMatchObject({ is });
  });

  it("stand once in a whole list", () => {
    const seen = new Set<string>();
    read("C1-C3", seen);
    expect(read("C3", seen)).toEqual({ is: "twice", text: "C3" });
  });

  it("are counted as many as were written, whatever the numbers", () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: 1, max: 9999 }), { minLength: 1, maxLength: 50 }), (numbers) => {
        expect(read(numbers.map((number) => `R${number}`).join(","))).toEqual({ prefix: "R", count: numbers.length });
      }),
    );
  });

  it("never throw", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary" }), (text) => {
        expect(read(text)).toBeDefined();
      }),
    );
  });
});

describe("the part type of a group", () => {
  const source = { basis: "demo" } as const;
  const type = (id: string, family: "capacitor" | "resistor" | "semiconductor", dielectric?: "aluminium" | "film" | "other") => ({
    ...{ id, name: id, family, leads: 2, typicalCost: 1, source },
    ...(dielectric && { dielectric }),
  });
  const types = [
    type("el", "capacitor", "aluminium"),
    type("film", "capacitor", "film"),
    type("cer", "capacitor", "other"),
    type("res", "resistor"),
    type("d", "semiconductor"),
    type("q", "semiconductor"),
  ];

  // Common practice, no source.
  it.each([
    ["C", "10u", "el"],
    ["C", "1u", "el"],
    ["C", "999n", "film"],
    ["C", "100n", "film"],
    ["C", "1n", "film"],
    ["C", "47p", "cer"],
    ["R", "4k7", "res"],
    ["D", "", undefined],
    ["QQ", "", undefined],
  ])("%s of %s is proposed as %s", (prefix, value, wanted) => {
    expect(proposedType(groupOf(prefix, value), types)?.id).toBe(wanted);
  });
});
