import { describe, expect, it } from "vitest";
import { assembly, item, ORGAN, on, sheet } from "../cast/organ.js";

const grid = assembly("front", { access: { by: "standard", size: "small", mounting: "on top" } });
const map = { assemblies: [...ORGAN, grid] };
const boards = [{ size: "small", mounting: "on top", count: 2 }] as const;

describe("what a sheet rests on", () => {
  it.each([
    ["nothing", {}, { access: "none", work: "none" }],
    ["counted boards", { boards, items: [item("a")] }, { access: "counts", work: "counts" }],
    ["boards counted as none", { boards: [{ ...boards[0], count: 0 }] }, { access: "none", work: "none" }],
    ["named assemblies by standard", { items: [on("front")] }, { access: "grid", work: "grid" }],
    ["a drawn map", { items: [on("low")] }, { access: "map", work: "map" }],
    ["a map only partly drawn", { items: [on("low"), on("front")] }, { access: "mixed", work: "mixed" }],
    ["a map and counted boards", { boards, items: [on("low")] }, { access: "mixed", work: "map" }],
    ["a map with work on the unit as a whole", { items: [on("low"), item("a")] }, { access: "map", work: "mixed" }],
    ["all of it open already", { items: [on("low")], alreadyOpen: ["low"] }, { access: "none", work: "map" }],
  ] as const)("says so: %s", (_, given, detail) => {
    expect(sheet({ map, ...given }).detail).toEqual(detail);
  });
});
