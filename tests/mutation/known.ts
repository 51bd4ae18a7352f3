/** Mutants that live because they change nothing anybody meets. */
export interface Known {
  readonly file: string;
  /** The line it stands in, without the space before it. */
  readonly is: string;
  readonly was: string;
  readonly becomes: string;
  readonly why: string;
}

export const KNOWN: readonly Known[] = [];

export const names = (one: Known, other: Omit<Known, "why">): boolean =>
  one.file === other.file && one.is === other.is && one.was === short(other.was) && one.becomes === short(other.becomes);

export const short = (text: string): string => {
  const line = text.replace(/\s+/g, " ");
  return line.length > 110 ? `${line.slice(0, 110)}...` : line;
};
