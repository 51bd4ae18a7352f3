/** Mutants that live because they change nothing anybody meets. */
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
];

export const names = (one: Known, other: Omit<Known, "why">): boolean =>
  one.file === other.file && one.is === other.is && one.was === short(other.was) && one.becomes === short(other.becomes);

export const short = (text: string): string => {
  const line = text.replace(/\s+/g, " ");
  return line.length > 110 ? `${line.slice(0, 110)}...` : line;
};
