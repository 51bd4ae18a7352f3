/** The parts of a log, by the part each was agreed as, and by what was paid. */
import { readBook } from "../../book.js";
import type { EstimateInput, Minor } from "../../input.js";
import { behindOf, partOf } from "../../resolve.js";
import type { Line } from "../../sheet.js";
import { agreedOf, type ChargedRevision, type JobDone } from "../jobDone.js";
import { type Covered, coverage } from "../log/covered.js";
import { sellingPrice } from "../log/spent.js";
import { type PartUsed, type WorkLog, withNames } from "../log/workLog.js";
import { type PartName, partName, type WorkDone, workDone } from "./workDone.js";

/** Pieces of one part, bought at one price. */
export interface PartsDone {
  /** The part they are reckoned against; of parts not agreed, the part itself. */
  readonly as: string;
  readonly agreed: boolean;
  readonly used: readonly PartUsed[];
  /** As an account prints it. */
  readonly line: Line;
  readonly pieces: number;
  readonly amount: Minor;
}

export const partKey = ({ type, kind }: Pick<PartName, "type" | "kind">): string => JSON.stringify([type, kind ?? null]);

/** Selling prices: what was paid, with the rate book's mark-up, rounded once for all pieces of a part at one price. `names` has all that the log names. */
function partsDone(log: WorkLog, names: EstimateInput, covered: Covered): readonly PartsDone[] {
  const book = readBook(names);
  const items = new Map(names.items.map((item) => [item.id, item]));
  const groups = new Map<string, { as: string; agreed: boolean; name: PartName; used: PartUsed[] }>();
  for (const used of log.parts) {
    const agreed = covered.counts(used);
    const name = partName(used.part, book);
    const as = partKey(agreed ? partName(partOf(items.get(used.item)!)!, book) : name);
    const item = items.get(used.item);
    const within = item !== undefined && behindOf(item) !== undefined;
    const key = JSON.stringify([agreed, as, partKey(name), used.paid.price, used.paid.per, within]);
    const group = groups.get(key);
    if (group) group.used.push(used);
    else groups.set(key, { as, agreed, name, used: [used] });
  }
  return [...groups.values()].map(({ as, agreed, name, used }) => {
    const { amount, unitPriceE4, lot } = sellingPrice(used, names.rateBook);
    const line: Line = { ...partLine(name, names, used), count: lot.pieces, unitPriceE4, amount };
    return { as, agreed, used, line, pieces: lot.pieces, amount };
  });
}

const partLine = (part: PartName, { rateBook }: EstimateInput, used: readonly PartUsed[]): Line => ({
  id: `part:${part.kind ?? part.type}`,
  sort: "part",
  taxClass: "parts",
  taxCategory: rateBook.tax.parts,
  part,
  amount: 0,
  from: [...new Set(used.map(({ item }) => item))].map((id) => ({ is: "item", id }) as const),
});

/** What a log without problems says was worked and used, told apart by whether it is agreed. */
export interface Recorded {
  readonly work: readonly WorkDone[];
  readonly parts: readonly PartsDone[];
}

export function recorded(job: JobDone, log: WorkLog, allowed: ChargedRevision): Recorded {
  const agreed = agreedOf(job).input;
  const covered = coverage(agreed, agreed);
  const names = withNames(allowed.input, job.current);
  return { work: workDone(log, allowed.sheet, names, covered, job.rates), parts: partsDone(log, names, covered) };
}
