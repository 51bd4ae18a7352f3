/** Quoted, agreed, allowed and actual, row by row, with their sum. */

import type { Figures } from "../../estimating/closeout/variance/row.js";
import { signedMoney } from "../../wording/change.js";
import { money } from "../../wording/figures.js";
import type { Tongue } from "../../wording/tongue.js";
import { figures, Table } from "../frame/table.js";

export interface FiguresRow extends Figures {
  readonly name: string;
  /** Read with care, and why. */
  readonly note?: string;
}

export interface FiguresTableProps {
  readonly caption: string;
  /** What the rows are. */
  readonly of: string;
  readonly rows: readonly FiguresRow[];
  readonly total: Figures;
  readonly tongue: Tongue;
}

export const FiguresTable = ({ caption, of, rows, total, tongue }: FiguresTableProps) => {
  const cells = ({ quoted, agreed, allowed, actual }: Figures) => [
    ...[quoted, agreed, allowed, actual].map((amount) => money(amount, tongue)),
    signedMoney(actual - allowed, tongue),
  ];
  return (
    <Table
      class="lines"
      caption={caption}
      scroll
      heads={[of, ...figures("Quoted", "Agreed", "Allowed", "Actual", "Difference")]}
      rows={rows.map((row) => [
        <>
          {row.name}
          {row.note ? <span class="why"> {row.note}</span> : null}
        </>,
        ...cells(row),
      ])}
      foot={[["Together", ...cells(total)]]}
    />
  );
};
