import fc from "fast-check";
import { describe, expect, it } from "vitest";
import plainCounts from "../../../fixtures/demo/plain-counts.json";
import demoBook from "../../../fixtures/demo/rate-book.json";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput } from "../../../src/estimating/input.js";
import type { Sheet } from "../../../src/estimating/sheet.js";
import { refineBoards } from "../../../src/estimating/teardown/refineBoards.js";
import { runs } from "../../setup/runs.js";
import { anyInput } from "../cast/anyInput.js";
import { accessCost, assembly, item, job, sheet, sum } from "../cast/organ.js";

const boards = [
  { size: "small", mounting: "on top", count: 2 },
  { size: "large", mounting: "behind another", count: 1 },
] as const;

const figures = ({ totals, adjustments, time, deposit, days, ceiling, ifDeclined, options, ifFound }: Sheet) => ({
  totals,
  adjustments,
  time,
  deposit,
  days,
  ceiling,
  ifDeclined,
  options,
  ifFound,
});

describe("naming the boards that were counted", () => {
  it("gives each an assembly with the same access, and keeps the work where it is", () => {
    const counted = job({ boards, items: [item("a")], map: { assemblies: [] } });
    const { map, toOpen, boards: left, items } = refineBoards(counted);
    expect(map!.assemblies).toEqual([
      { id: "board-1", name: "Board 1", sort: "board", access: { by: "standard", size: "small", mounting: "on top" } },
      { id: "board-2", name: "Board 2", sort: "board", access: { by: "standard", size: "small", mounting: "on top" } },
      { id: "board-3", name: "Board 3", sort: "board", access: { by: "standard", size: "large", mounting: "behind another" } },
    ]);
    expect(toOpen).toEqual(["board-1", "board-2", "board-3"]);
    expect(left).toBeUndefined();
    expect(items).toEqual(counted.items);
  });

  it("keeps a map that is there, and takes no id or name of it", () => {
    const drawn = { assemblies: [assembly("board-1"), { ...assembly("x"), name: "Board 3" }] };
    const { map } = refineBoards(job({ boards, map: drawn, toOpen: ["x"] }));
    expect(map!.assemblies.map(({ id }) => id)).toEqual(["board-1", "x", "board-2", "board-4", "board-5"]);
  });

  it("of an estimate without boards changes nothing", () => {
    const drawn = job({ toOpen: ["low"] });
    expect(refineBoards(drawn)).toEqual(drawn);
    expect(refineBoards(job({ boards: [] }))).toEqual(job());
  });

  const bothSheets = (input: EstimateInput): [Sheet, Sheet] => {
    const [before, after] = [estimate(input), estimate(refineBoards(input))];
    if (!before.ok || !after.ok) throw new Error(JSON.stringify([before, after]));
    return [before.sheet, after.sheet];
  };
  const byLine = ({ rateBook }: EstimateInput) => rateBook.tax.rounding.level === "line";

  it("changes no cent and no minute, on any estimate", () => {
    fc.assert(
      fc.property(
        anyInput.filter((input) => !byLine(input)),
        (input) => {
          const [before, after] = bothSheets(input);
          expect(figures(after)).toEqual(figures(before));
          expect(accessCost(after)).toBe(accessCost(before));
          expect(after.access.minutes).toEqual(before.access.minutes);
        },
      ),
      runs(300),
    );
  });

  it("where tax is rounded line by line, changes nothing but the tax of the access lines: they are more lines then", () => {
    fc.assert(
      fc.property(anyInput.filter(byLine), (input) => {
        const [before, after] = bothSheets(input);
        for (const field of ["linesNet", "allowances", "charges", "prepaid"] as const)
          expect(after.totals[field]).toBe(before.totals[field]);
        expect([after.adjustments, after.time, after.days]).toEqual([before.adjustments, before.time, before.days]);
        const boards = sum((input.boards ?? []).map(({ count }) => count));
        expect(Math.abs(after.totals.tax - before.totals.tax)).toBeLessThanOrEqual(boards);
      }),
      runs(150),
    );
  });

  it("changes no cent of the demo estimate by plain counts", () => {
    const input = { ...plainCounts, rateBook: demoBook } as unknown as EstimateInput;
    const [before, after] = [estimate(input), estimate(refineBoards(input))];
    if (!before.ok || !after.ok) throw new Error("The demo has problems.");
    expect(figures(after.sheet)).toEqual(figures(before.sheet));
    expect(after.sheet.detail.access).toBe("grid");
  });

  it("lets a board get its fasteners later: only its access changes", () => {
    const refined = refineBoards(job({ boards, items: [item("a", { count: 9 })], map: { assemblies: [] } }));
    const assemblies = refined.map!.assemblies.map((each) =>
      each.id === "board-3" ? assembly("board-3", { name: "Voice board" }, 5) : each,
    );
    const [before, after] = [sheet(refined), sheet({ ...refined, map: { assemblies } })];
    const rest = ({ lines }: Sheet) => lines.filter(({ id }) => id !== "access:board-3");
    expect(rest(after)).toEqual(rest(before));
    expect(after.totals.total - before.totals.total).toBe(
      sum([after, before].map(({ lines }, i) => lines.find(({ id }) => id === "access:board-3")!.amount * (i === 0 ? 1 : -1))),
    );
  });
});
