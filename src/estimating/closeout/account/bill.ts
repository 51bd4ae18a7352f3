/** What a job that goes on will be billed for, as far as it is known: what is agreed, and what was found of it. */
import type { Limit } from "../../agreement/limit.js";
import { keepsPromises } from "../../agreement/promises.js";
import type { Minor } from "../../input.js";
import type { Totals } from "../../sheet.js";
import { addUp } from "../../totals/addUp.js";
import { allowedFor, type ChargedRevision, type NumberedRevision } from "../jobDone.js";
import type { WorkLog } from "../log/workLog.js";
import { holdToLimit } from "./terms.js";

export interface Bill {
  readonly totals: Pick<Totals, "total" | "withoutTax">;
  /** What was found adds to what is agreed, tax included. */
  readonly found: Minor;
  /** The work of it, with its lines. */
  readonly work: ChargedRevision;
  /** How far it would pass the limit, which it is held to. */
  readonly over: Minor;
}

/** At the prices promised, all of it done: as a final account at the agreed prices charges it. `found`: groups on the agreed sheet. */
export function billOf(agreed: NumberedRevision, found: readonly string[], log: () => WorkLog, limit: Limit): Bill {
  const { input, sheet } = agreed;
  const { tax } = input.rateBook;
  if (found.length === 0) return { totals: addUp(sheet.lines, sheet.adjustments, tax, 0), found: 0, work: agreed, over: 0 };
  const promised = !keepsPromises(input.rateBook);
  const allowed = allowedFor({ revisions: [agreed], found, done: {}, log: log(), ...(promised && { promised }) });
  if (!allowed.ok) throw new Error("What was agreed to has problems.");
  const { lines, adjustments } = allowed.billed.sheet;
  const { over, totals } = holdToLimit(lines, adjustments, tax, 0, limit, false);
  return { totals, found: totals.total - sheet.totals.total, work: allowed.allowed, over };
}
