/** The parts of a log at what the owner is charged for them where work is billed as agreed: the agreed price of each part, its margin with it. */
import type { EstimateInput, Minor, TaxRules, WorkItem } from "../input.js";
import { timesOver } from "../money/rounding.js";
import { partOf, resolve } from "../resolve.js";
import type { Line, Sheet } from "../sheet.js";

interface PartsOf {
  readonly item?: string;
  /** At their selling price. */
  readonly parts?: Minor;
  readonly pieces?: number;
}

export const partLine = (amount: Minor, { parts }: TaxRules, sort: "part" | "scarcity margin" = "part") =>
  ({ sort, taxClass: "parts", taxCategory: parts, amount }) as const;

/** Pieces beyond those agreed, and parts that nobody agreed to, stand at their selling price: nobody promised another. */
export function partsAsAgreed(
  log: readonly PartsOf[],
  { input, sheet }: { readonly input: EstimateInput; readonly sheet: Pick<Sheet, "lines"> },
) {
  const { tax } = input.rateBook;
  const counts = new Map(
    resolve(input).items.flatMap((item) => (isCharged(item) && partOf(item) ? [[item.id, item.count]] : [])),
  );
  const groups = new Map<string, { needed: number; part: Minor; margin: Minor; pieces: number; sold: Minor }>();
  const groupOf = new Map<string, string>();
  const byPart = new Map<string, string>();
  for (const { sort, from, amount, part } of sheet.lines.filter(isOfParts)) {
    const items = from.flatMap((source) => (source.is === "item" && counts.has(source.id) ? [source.id] : []));
    // A margin that rests on offers names its part alone.
    const name = JSON.stringify([part?.type, part?.kind]);
    const key = items.length === 0 ? (byPart.get(name) ?? "") : items.join("\n");
    if (!byPart.has(name)) byPart.set(name, key);
    const needed = items.reduce((sum, id) => sum + counts.get(id)!, 0);
    const group = groups.get(key) ?? { needed, part: 0, margin: 0, pieces: 0, sold: 0 };
    group[sort === "part" ? "part" : "margin"] += amount;
    groups.set(key, group);
    for (const id of items) groupOf.set(id, key);
  }
  const others: Minor[] = [];
  for (const { item = "", parts = 0, pieces = 0 } of log) {
    const group = pieces > 0 ? groups.get(groupOf.get(item) ?? "") : undefined;
    if (group) {
      group.pieces += pieces;
      group.sold += parts;
    } else others.push(parts);
  }
  return [
    ...[...groups.values()].flatMap(({ needed, part, margin, pieces, sold }) => {
      const used = Math.min(pieces, needed);
      if (used === 0) return [];
      return [
        partLine(timesOver(used, part, needed), tax),
        partLine(timesOver(used, margin, needed), tax, "scarcity margin"),
        partLine(timesOver(pieces - used, sold, pieces), tax),
      ];
    }),
    ...others.map((amount) => partLine(amount, tax)),
  ];
}

const isOfParts = ({ sort }: Line): boolean => sort === "part" || sort === "scarcity margin";

const isCharged = ({ certainty }: WorkItem): boolean =>
  certainty.is === "planned" || (certainty.is === "optional" && certainty.chosen);
