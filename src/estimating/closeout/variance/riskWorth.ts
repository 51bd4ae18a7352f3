/** What was charged for risk against what the risk came to, and whether what might have turned up did. */
import type { Minor } from "../../input.js";
import type { GroupPrice, Line, Sheet } from "../../sheet.js";
import { partKey } from "../actual/partsDone.js";
import type { Row } from "./row.js";

export interface RiskWorth {
  /** The line that charged for it. */
  readonly line: Line;
  readonly charged: Minor;
  /** What the parts it stands for came to beyond what was allowed for them; negative when they came to less. */
  readonly used: Minor;
  /** charged - used; negative when it was not enough. */
  readonly kept: Minor;
}

export function riskWorth({ lines }: Sheet, partRows: readonly Row[]): readonly RiskWorth[] {
  const overBy = new Map<string, Minor>();
  for (const row of partRows)
    if ("line" in row.is && row.is.line.part) {
      const key = partKey(row.is.line.part);
      overBy.set(key, (overBy.get(key) ?? 0) + row.variance.price + row.variance.usage);
    }
  return lines
    .filter(({ sort }) => sort === "scarcity margin")
    .map((line) => {
      const used = line.part ? (overBy.get(partKey(line.part)) ?? 0) : 0;
      return { line, charged: line.amount, used, kept: line.amount - used };
    });
}

export interface FoundOrNot {
  readonly group: GroupPrice;
  readonly probability: number;
  readonly found: boolean;
}

export const foundOrNot = ({ ifFound }: Sheet, found: readonly string[]): readonly FoundOrNot[] =>
  ifFound.map((group) => ({ group, probability: group.probability ?? 0, found: found.includes(group.id) }));
