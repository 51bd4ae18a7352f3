/** What an import would do, row by row. */
import type { Change } from "../../records/importing.js";

export interface CellFault {
  /** Heading of the column; absent: the row as a whole. */
  readonly column?: string;
  readonly why: string;
}

export interface RowReport {
  /** As a spreadsheet numbers it. */
  readonly row: number;
  readonly is: "new" | "changed" | "same" | "counted" | "left out" | "wrong";
  /** What it is about, as a person knows it. */
  readonly name: string;
  readonly faults: readonly CellFault[];
}

export interface Group {
  readonly name: string;
  readonly pieces: number;
  /** Id of a part type, where one is chosen or proposed. */
  readonly type?: string;
}

export interface Report {
  readonly rows: readonly RowReport[];
  /** Nothing where a row is wrong: all of it or nothing. */
  readonly changes: readonly Change[];
  /** Of a parts list: lines that are one part type. */
  readonly groups?: readonly Group[];
  /** What the counts of the assembly become. */
  readonly counts?: readonly { readonly type: string; readonly name: string; readonly before: number; readonly after: number }[];
}

export const isSound = ({ rows }: Report): boolean => rows.every(({ is }) => is !== "wrong");
