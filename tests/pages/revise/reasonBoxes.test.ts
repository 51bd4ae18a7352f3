import { expect, it } from "vitest";
import { changedWork } from "../../../src/pages/revise/reasonBoxes.js";
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
