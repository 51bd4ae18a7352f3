/** What was charged for risk against what the risk came to, and whether what might have turned up did. */
import type { Minor } from "../../input.js";
import type { GroupPrice, Line, Sheet } from "../../sheet.js";
import { partKey } from "../actual/partsDone.js";
import type { Charged } from "../jobDone.js";
import type { Row } from "./row.js";

export interface RiskWorth {
  /** The line that charged for it. */
  readonly line: Line;
  readonly charged: Minor;
  /**
   * What it stands for came to, beyond what was allowed: all work in time and rate; its parts in price and pieces; or, of a fixed
   * price, what was found. Below 0 when it came to less.
   */
  readonly covers: "work" | "parts" | "found";
  readonly used: Minor;
  /** charged - used; below 0 when it was not enough. */
  readonly kept: Minor;
}

/** Lines of the sheet that is billed. `allowed` has what was found beside it. */
export function riskWorth(billed: Charged, allowed: Charged, rows: readonly Row[]): readonly RiskWorth[] {
  const over = (wanted: (line: Line, row: Row) => boolean) =>
    rows
      .filter((row) => "line" in row.is && wanted(row.is.line, row))
      .reduce((sum, { variance: { rate, efficiency, price, usage } }) => sum + rate + efficiency + price + usage, 0);
  const parts = (wanted: (part: NonNullable<Line["part"]>) => boolean) =>
    over(({ sort, part }) => sort === "part" && part !== undefined && wanted(part));
  return billed.lines.flatMap((line): RiskWorth[] => {
    const worth = (covers: RiskWorth["covers"], used: Minor) => [
      { line, charged: line.amount, covers, used, kept: line.amount - used },
    ];
    const { sort, part, why } = line;
    if (sort === "scarcity margin")
      return worth(
        "parts",
        parts((each) => part !== undefined && partKey(each) === partKey(part)),
      );
    if (sort !== "allowance" || why?.rule === "margin allowance") return [];
    if (why?.rule === "sourcing allowance")
      return worth(
        "parts",
        parts(({ name }) => why.parts.includes(name)),
      );
    if (why?.rule === "if-found allowance") return worth("found", netOf(allowed) - netOf(billed));
    return worth(
      "work",
      over((_, { category }) => category === "access" || category === "labour"),
    );
  });
}

const netOf = ({ lines, adjustments }: Charged): Minor =>
  lines.reduce((sum, { amount }) => sum + amount, 0) +
  adjustments.reduce((sum, { charge, amount }) => sum + (charge ? amount : -amount), 0);

export interface FoundOrNot {
  readonly group: GroupPrice;
  readonly probability: number;
  readonly found: boolean;
}

export const foundOrNot = ({ ifFound }: Sheet, found: readonly string[]): readonly FoundOrNot[] =>
  ifFound.map((group) => ({ group, probability: group.probability ?? 0, found: found.includes(group.id) }));
