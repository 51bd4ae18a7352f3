/** The lines of a sheet by what they are for: each group's amount is the sum of its lines, and the groups sum to `totals.linesNet`. */
import type { Minor, Minutes } from "../input.js";
import { fromMilli, toMilli } from "../money/scales.js";
import type { Line, LineSort, Sheet } from "../sheet.js";

export type LineGroup = "access" | "labour" | "cleaning" | "alignment" | "testing" | "parts" | "scarcity" | "risk" | "fees";

const GROUP_OF: Readonly<Record<LineSort, LineGroup>> = {
  access: "access",
  replacement: "labour",
  inspection: "labour",
  "fault finding": "labour",
  other: "labour",
  "donor pull": "labour",
  "labour rounding": "labour",
  "minimum charge": "labour",
  cleaning: "cleaning",
  alignment: "alignment",
  test: "testing",
  soak: "testing",
  part: "parts",
  "scarcity margin": "scarcity",
  allowance: "risk",
  fee: "fees",
};

export interface Subtotal {
  readonly group: LineGroup;
  readonly lines: readonly Line[];
  readonly amount: Minor;
  readonly minutes: Minutes;
}

/** Groups that have lines, in the order work is explained: getting there, doing it, what it consumes, what it carries. */
export function subtotals({ lines }: Pick<Sheet, "lines">): readonly Subtotal[] {
  const groups: readonly LineGroup[] = [
    "access",
    "labour",
    "cleaning",
    "alignment",
    "testing",
    "parts",
    "scarcity",
    "risk",
    "fees",
  ];
  return groups.flatMap((group) => {
    const own = lines.filter(({ sort }) => GROUP_OF[sort] === group);
    if (own.length === 0) return [];
    const amount = own.reduce((sum, line) => sum + line.amount, 0);
    const milli = own.reduce((sum, line) => sum + toMilli(line.minutes ?? 0), 0);
    return [{ group, lines: own, amount, minutes: fromMilli(milli) }];
  });
}
