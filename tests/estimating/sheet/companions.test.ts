/** Usual companions: offered where work asks for them, silent once they are there; never in the price. */
import { describe, expect, it } from "vitest";
import demoBook from "../../../fixtures/demo/rate-book.json";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput, RateBook, WorkItem } from "../../../src/estimating/input.js";
import { missingCompanions } from "../../../src/estimating/sheet/companions.js";
import { assembly, item, job, on, problemsOf } from "../cast/organ.js";

const BOOK = demoBook as RateBook;
const MAP = {
  assemblies: [
    assembly("board"),
    assembly("psu", { sort: "supply" }),
    assembly("mains", { hazards: ["mains and stored charge"] }),
  ],
};
const input = (...items: WorkItem[]): EstimateInput =>
  job({ currency: "GBP", map: MAP, items, rateBook: BOOK, kinds: [{ id: "can", type: "electrolytic-can", name: "Can" }] });
const offered = (...items: WorkItem[]) =>
  missingCompanions(input(...items)).map(({ operation, items }) => [operation.id, ...items]);

const cap = on("board", "cap", { operation: "replace", part: { type: "film" } });
const soak = item("soak", { operation: "soak-test" });

describe("work that usually goes with other work", () => {
  it("is the safety test, after work on the supply, on mains parts, or where the mains stands", () => {
    expect(offered(on("psu", "a", { operation: "inspect" }))).toEqual([["safety-test", "a"]]);
    expect(offered(on("mains", "a", { operation: "inspect" }))).toEqual([["safety-test", "a"]]);
    expect(offered(on("board", "a", { operation: "measure-supply" }))).toEqual([["safety-test", "a"]]);
    const can = on("board", "a", { operation: "replace", part: { kind: "can" } });
    expect(offered(can)).toEqual([
      ["safety-test", "a"],
      ["function-test", "a"],
    ]);
  });

  it("is the function test after a replacement, soldered or plugged, and names the work it goes with", () => {
    const valve = on("board", "valve", { operation: "exchange", part: { type: "felt" } });
    expect(offered(cap, soak, valve)).toEqual([["function-test", "cap", "valve"]]);
  });

  it("is saving the memory and measuring the battery, for anything of the family of cells", () => {
    const cell = on("board", "cell", { operation: "replace", part: { type: "cell-holder" } });
    expect(offered(cell).map(([id]) => id)).toEqual(["function-test", "save-memory", "battery-test"]);
  });

  it("is offered no more once it is there in any way, and again when its count is 0", () => {
    const test = (given: Partial<WorkItem>) => item("test", { operation: "function-test", ...given });
    expect(offered(cap, test({}))).toEqual([]);
    expect(offered(cap, test({ certainty: { is: "optional", chosen: false } }))).toEqual([]);
    expect(offered(cap, test({ count: 0 }))).toEqual([["function-test", "cap"]]);
  });

  it("is not asked for by options nobody chose, by what may be found, or by a count of 0", () => {
    expect(offered({ ...cap, certainty: { is: "optional", chosen: false } })).toEqual([]);
    expect(offered({ ...cap, certainty: { is: "if found", probability: 0.5 } })).toEqual([]);
    expect(offered({ ...cap, count: 0 })).toEqual([]);
    expect(offered({ ...cap, certainty: { is: "optional", chosen: true } })).toEqual([["function-test", "cap"]]);
  });

  it("stands on the sheet beside the price and moves no figure; a book without any leaves the sheet as it was", () => {
    const { companions: _, ...bare } = BOOK;
    const [withThem, without] = [input(cap), { ...input(cap), rateBook: bare }].map((each) => {
      const outcome = estimate(each);
      if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
      return outcome.sheet;
    });
    const { companions, ...rest } = withThem!;
    expect(companions?.map(({ operation }) => operation.name)).toEqual(["Test every function"]);
    expect(without).not.toHaveProperty("companions");
    expect(rest).toEqual(without);
  });
});

describe("what a rate book may say of replacements", () => {
  it("is refused where the companion is no operation of the book, and where a part's own is no replacement", () => {
    const companions = [{ operation: "polish", after: {}, reason: "It shines." }];
    expect(problemsOf({ ...input(cap), rateBook: { ...BOOK, companions } })).toEqual([
      expect.objectContaining({ name: "operation unknown", pointer: "/rateBook/companions/0/operation" }),
    ]);
    const [first, ...others] = BOOK.partTypes;
    const partTypes = [{ ...first!, replacedBy: "inspect" }, ...others];
    const [problem] = problemsOf({ ...input(cap), rateBook: { ...BOOK, partTypes } });
    expect(problem).toMatchObject({
      name: "operation unknown",
      pointer: "/rateBook/partTypes/0/replacedBy",
      known: ["replace", "exchange"],
    });
  });
});
