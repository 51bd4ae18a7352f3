import { expect, it } from "vitest";
import { changedWork, reasonFields, reasonsTyped } from "../../../src/pages/revise/reasonBoxes.js";
import { demoInput } from "../cast/bench.js";

const before = demoInput("tape-echo");

it("asks for a reason where work was corrected or dropped, and not where it is new", () => {
  const [first, second, ...rest] = before.items;
  const extra = { ...first!, id: "extra1", reason: "found since" };
  const after = {
    ...before,
    items: [{ ...first!, count: first!.count + 1 }, ...rest, extra],
    paperwork: { ...before.paperwork, whyChanged: { [second!.id]: "it is sound" } },
  };
  expect(changedWork(before, after).map(({ id, was, reason }) => [id, was, reason])).toEqual([
    [first!.id, "corrected", undefined],
    [second!.id, "dropped", "it is sound"],
  ]);
  expect(changedWork(before, before)).toEqual([]);
});

it("reads what its boxes say back, to be held against the letters of the paper; an empty one says nothing", () => {
  const row = { title: "Clean a board", was: "dropped" } as const;
  const fields = reasonFields([
    { id: "w1", ...row },
    { id: "w2", ...row, reason: "it is sound" },
  ]);
  expect(reasonsTyped(new Map(fields))).toEqual({ whyChanged: { w2: "it is sound" } });
  expect(reasonsTyped(new Map())).toEqual({});
});
