/** What a price with more work takes beyond the one without it, line by line. */
import { expect, it } from "vitest";
import type { LabourLine, Times } from "../../../src/estimating/labour/times.js";
import { addedLines } from "../../../src/estimating/pricing/timedRisk.js";
import type { Priced } from "../../../src/estimating/pricing/workings.js";

type Three = readonly [low: number, likely: number, high: number];
const times = ([low, likely, high]: Three): Times => ({ low, likely, high });
const lineOf = (id: string, three: Three, labourClass: string): LabourLine => ({
  ...{ times: times(three), attended: true, labourClass },
  line: { id, sort: id === "pull" ? "donor pull" : "cleaning", taxClass: "labour", taxCategory: "none", amount: 0, from: [] },
});
type Work = Readonly<Record<string, readonly [before: Three | undefined, after: Three, labourClass?: string]>>;

const added = (work: Work): Record<string, Three> => {
  const before = new Map(Object.entries(work).flatMap(([id, [was]]) => (was ? [[id, times(was)] as const] : [])));
  const labour = Object.entries(work).map(([id, [, now, labourClass = "bench"]]) => lineOf(id, now, labourClass));
  const more: Pick<Priced, "access" | "labour"> = { access: labour.slice(0, 1), labour: labour.slice(1) };
  return Object.fromEntries(
    addedLines(before, more as Priced).map(({ line: { id }, times: { low, likely, high } }) => [id, [low, likely, high]]),
  );
};

it.each<[string, Work, Record<string, Three>]>([
  ["a line that was not there, whole", { a: [undefined, [1, 2, 4]] }, { a: [1, 2, 4] }],
  [
    "nothing of a line that takes as long as before",
    {
      a: [
        [1, 2, 4],
        [1, 2, 4],
      ],
    },
    {},
  ],
  [
    "of a line that grew, what it grew by",
    {
      a: [
        [1, 2, 4],
        [3, 5, 9],
      ],
    },
    { a: [2, 3, 5] },
  ],
  [
    "a line of which only the most grew",
    {
      a: [
        [1, 2, 4],
        [1, 2, 7],
      ],
    },
    { a: [0, 0, 3] },
  ],
  [
    "a line of which only the likely time grew",
    {
      a: [
        [1, 2, 4],
        [1, 3, 4],
      ],
    },
    { a: [0, 1, 0] },
  ],
  [
    "a line of which only the least grew",
    {
      a: [
        [1, 2, 4],
        [2, 2, 4],
      ],
    },
    { a: [1, 0, 0] },
  ],
  ["no pulling from donor units: it is part of what a part costs", { pull: [undefined, [1, 2, 4]] }, {}],
  [
    "two lines by themselves where neither shrank, the time of one certain",
    { a: [undefined, [0, 2, 4]], b: [undefined, [3, 3, 3]] },
    { a: [0, 2, 4], b: [3, 3, 3] },
  ],
  [
    "a set-up that moved, as one line of its class: 7 more here and 4 less there are 3",
    {
      a: [
        [4, 4, 4],
        [0, 0, 0],
      ],
      b: [undefined, [7, 7, 7]],
      c: [undefined, [1, 2, 3], "alignment"],
    },
    { a: [3, 3, 3], c: [1, 2, 3] },
  ],
  [
    "one line of a class whose likely time grew less than its least",
    {
      a: [
        [1, 5, 9],
        [4, 6, 12],
      ],
      b: [undefined, [1, 4, 5]],
    },
    { a: [4, 5, 8] },
  ],
  [
    "one line of a class whose most grew less than its likely time",
    {
      a: [
        [1, 2, 9],
        [2, 5, 10],
      ],
      b: [undefined, [1, 4, 9]],
    },
    { a: [2, 7, 10] },
  ],
])("adds %s", (_, work, expected) => {
  expect(added(work)).toEqual(expected);
});
