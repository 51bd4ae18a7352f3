/** What counts until someone says otherwise (general practice of the trade, no source): mains inside, a charged supply, a memory that a cell keeps. */
import { describe, expect, it } from "vitest";
import demoBook from "../../../fixtures/demo/rate-book.json";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput, RateBook, Unit, WorkItem } from "../../../src/estimating/input.js";
import type { Sheet } from "../../../src/estimating/sheet.js";
import { assembly, item, job, on } from "../cast/organ.js";

const BOOK = demoBook as RateBook;
const MAINS = "mains and stored charge";
const { safety: _, ...OLD } = BOOK;

const UNIT: Unit = { maker: "Threnwick", model: "Cadence 3", grade: BOOK.grades[0]!.id };
const standard = { by: "standard", size: "medium", mounting: "on top" } as const;
const MEASURED = { by: "measured", remove: { low: 1, likely: 2, high: 3 }, refit: { low: 1, likely: 2, high: 3 } } as const;
type Level = "counts" | "grid" | "map";

function sheetOf(level: Level, items: readonly WorkItem[], unit: Partial<Unit> = {}, rateBook: RateBook = BOOK): Sheet {
  const access = level === "grid" ? standard : MEASURED;
  const map = { assemblies: [assembly("psu", { sort: "supply", access }), assembly("voices", { access })] };
  const at = level === "counts" ? items.map(({ assembly: _at, ...rest }) => rest) : items;
  const input = {
    ...job({ currency: "GBP", items: at, rateBook, ...(level !== "counts" && { map }) }),
    unit: { ...UNIT, ...unit },
  };
  const { map: drawn, ...bare } = input;
  const outcome = estimate((level === "counts" ? bare : { ...bare, map: drawn }) as EstimateInput);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.sheet;
}

const EIGHT = on("psu", "caps", { operation: "replace", count: 8, part: { type: "electrolytic" } });
const CELL = on("voices", "cell", { operation: "replace", part: { type: "memory-cell" } });
const SAVE = item("save", { operation: "save-memory" });
const cautions = ({ hazards }: Sheet) => hazards.map(({ hazard }) => hazard);
const offered = ({ companions = [] }: Sheet) => companions.map(({ operation }) => operation.id);

describe.each<Level>(["counts", "grid", "map"])("a unit of which nobody said what it runs on, by %s", (level) => {
  it("counts as mains powered and its supply as charged: eight electrolytics bring the caution and the offer of a safety test", () => {
    const sheet = sheetOf(level, [EIGHT]);
    expect(sheet.hazards[0]).toEqual({
      hazard: MAINS,
      from: ["Threnwick Cadence 3", ...(level === "counts" ? [] : ["Psu"])],
      assumed: true,
    });
    expect(offered(sheet)).toContain("safety-test");
    if (level !== "counts") expect(sheet.access.removal[0]!.hazards).toEqual([MAINS]);
  });

  it("is left alone once someone says that no mains is inside, and no longer assumed once someone says that it is", () => {
    const low = sheetOf(level, [EIGHT], { power: "low voltage" });
    expect(cautions(low)).not.toContain(MAINS);
    expect(offered(low)).not.toContain("safety-test");
    expect(sheetOf(level, [EIGHT], { power: "mains" }).hazards[0]).not.toHaveProperty("assumed");
    expect(sheetOf(level, [EIGHT], { hazards: [MAINS] }).hazards[0]).not.toHaveProperty("assumed");
  });

  it("asks what it holds when a cell is worked on, and names the work that saves the memory first", () => {
    const sheet = sheetOf(level, [CELL, SAVE]);
    expect(sheet.memory).toEqual({ asked: false, cells: ["cell"], saved: ["save"] });
    expect(sheet.warnings).toContainEqual({ is: "memory not asked" });
    const alone = sheetOf(level, [CELL]);
    expect(alone.memory).toEqual({ asked: false, cells: ["cell"], saved: [] });
    expect(offered(alone)).toContain("save-memory");
  });

  it("is asked no more once someone said what it holds, and needs nothing saved where that is nothing", () => {
    const held = sheetOf(level, [CELL], { storedData: "64 sounds" });
    expect(held.memory).toMatchObject({ asked: true });
    expect(held.warnings).not.toContainEqual({ is: "memory not asked" });
    const empty = sheetOf(level, [CELL], { storedData: "" });
    expect(empty).not.toHaveProperty("memory");
    expect(offered(empty)).not.toContain("save-memory");
  });

  it("costs the same, and is as it was under a rate book that says nothing of it", () => {
    const [now, before] = [BOOK, OLD].map((book) => sheetOf(level, [EIGHT, CELL], {}, book));
    expect(now!.totals).toEqual(before!.totals);
    expect(cautions(before!)).toEqual(["lithium cells", "leaking cells", "lead solder"]);
    expect(before).not.toHaveProperty("memory");
    expect(before!.warnings).not.toContainEqual({ is: "memory not asked" });
  });
});

it("has no caution while nothing is to be done", () => {
  expect(sheetOf("grid", []).hazards).toEqual([]);
});

it("does not take work on another board, by name, for work on mains parts", () => {
  expect(offered(sheetOf("map", [on("voices", "caps", { operation: "replace", part: { type: "electrolytic" } })]))).not.toContain(
    "safety-test",
  );
});
