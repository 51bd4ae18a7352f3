/** Mutants that live because they change nothing anybody meets, and where each mutant stands. */
import { readFileSync } from "node:fs";
import { type Mutant, mutantsOf } from "./mutants.js";

/** One that is explained. */
export interface Known {
  readonly file: string;
  /** The line it stands in, without the space before it. */
  readonly is: string;
  readonly was: string;
  readonly becomes: string;
  readonly why: string;
}

const NOT_TOLD = "A key without a value and no key at all are one in JSON and in print.";

export const KNOWN: readonly Known[] = [
  {
    file: "src/estimating/agreement/causes.ts",
    is: "const graded = unit?.before?.grade !== unit?.after?.grade;",
    ...{ was: "unit?.after?.grade", becomes: "unit?.after.grade" },
    why: "An input always has a unit, so a difference of units has both.",
  },
  {
    file: "src/estimating/agreement/faultsFound.ts",
    is: "const charged = added.filter(isCharged);",
    ...{ was: "added.filter(isCharged)", becomes: "added" },
    why: "Work that is only possible adds nothing to a total; leaving it out saves pricing it.",
  },
  {
    file: "src/estimating/closeout/accuracy/accuracy.ts",
    is: "...(spread !== undefined && { spread }),",
    ...{ was: "spread !== undefined", becomes: "true" },
    why: NOT_TOLD,
  },
  {
    file: "src/estimating/agreement/causes.ts",
    is: '...context("condition", [], graded, taking(diff, ["unit"])),',
    ...{ was: "[]", becomes: '["changed"]' },
    why: "No input has a key of that name.",
  },
  {
    file: "src/estimating/agreement/difference.ts",
    is: 'if (part === undefined || "own" in part) return undefined;',
    ...{ was: '"own"', becomes: '""' },
    why: "Own parts were answered a line above; this only tells the compiler so.",
  },
  {
    file: "src/estimating/risk/smallMany.ts",
    is: "for (let i = 0; i < mass.length; i++) {",
    ...{ was: "i < mass.length", becomes: "i <= mass.length" },
    why: "One turn more reads nothing behind the end of typed arrays.",
  },
  {
    file: "src/estimating/pricing/sums.ts",
    is: "for (let at = 0; at < sums.length; at++) sums[at]! += more[at]!;",
    ...{ was: "at < sums.length", becomes: "at <= sums.length" },
    why: "A typed array keeps nothing behind its end.",
  },
];

export const names = (one: Known, other: Omit<Known, "why">): boolean =>
  one.file === other.file && one.is === other.is && one.was === short(other.was) && one.becomes === short(other.becomes);

export const short = (text: string): string => {
  const line = text.replace(/\s+/g, " ");
  return line.length > 110 ? `${line.slice(0, 110)}...` : line;
};

export interface Placed extends Mutant {
  readonly file: string;
  /** Which of its file's. */
  readonly nth: number;
  readonly line: number;
  readonly is: string;
}

export function placedIn(file: string): Placed[] {
  const text = readFileSync(file, "utf8");
  const lines = text.split("\n");
  return mutantsOf(text, file).mutants.map((mutant, nth) => {
    const line = text.slice(0, mutant.from).split("\n").length;
    return { ...mutant, file, nth, line, is: lines[line - 1]!.trim() };
  });
}
