/** Where a job stands: which revision is current, which is agreed to, and how far work may go on it. Derived, never stored. */

import type { PricedSet } from "../estimating/agreement/choices.js";
import { agreedLimit, type Limit } from "../estimating/agreement/limit.js";
import { type LoggedWork, logged, unagreed } from "../estimating/agreement/workLog.js";
import type { EstimateInput, WorkItem } from "../estimating/input.js";
import type { Unagreed } from "../estimating/problems.js";
import type { Totals } from "../estimating/sheet.js";
import { type Agreement, agreedTo, answersOf } from "./agreements.js";
import { asLogged } from "./asWork.js";
import type { Database } from "./database.js";
import { type Estimate, estimates } from "./estimates.js";
import { type Issue, issues } from "./issues.js";
import { pricedAgreement } from "./pricedSet.js";
import { entriesOf, type LogEntryValue } from "./workLog.js";

export interface Standing {
  readonly draft?: Estimate;
  /** The newest issued revision; those before it are superseded. */
  readonly current?: Issue;
  readonly agreed?: Agreed;
  /** Of the newest revision, issued or not, and of what was agreed. */
  readonly input?: EstimateInput;
  readonly unagreed: readonly Unagreed[];
  readonly log: readonly LoggedWork[];
}

export interface Agreed extends PricedSet {
  readonly agreement: Agreement;
  /** With the possible work that was found necessary so far. */
  readonly limit: Limit;
  readonly spent: Pick<Totals, "total" | "withoutTax">;
}

/** Undefined where there is no such job, or no estimate yet. `entry`: work about to be logged. */
export async function standingOf(
  db: Database,
  jobId: string,
  entry?: Pick<LogEntryValue, "item">,
): Promise<Standing | undefined> {
  const [revisions, issued, answers, entries] = await Promise.all([
    estimates.ofJob(db, jobId),
    issues.ofJob(db, jobId),
    answersOf(db, jobId),
    entriesOf(db, jobId),
  ]);
  const latest = revisions.at(-1);
  if (!latest) return undefined;
  const agreement = agreedTo(answers);
  const priced = await pricedAgreement(db, agreement);
  const input = withItemsOf(await estimates.inputOf(db, latest), priced?.input.items ?? []);
  const log = entries.map((each) => asLogged(each, input));
  const current = issued.at(-1);
  return {
    input,
    log,
    unagreed: unagreed(input, priced?.input),
    ...(!latest.issuedAt && { draft: latest }),
    ...(current && { current }),
    ...(agreement && priced && { agreed: agreedOf(agreement, priced, input, log, entry) }),
  };
}

function agreedOf(
  agreement: Agreement,
  priced: PricedSet,
  input: EstimateInput,
  log: readonly LoggedWork[],
  entry: Pick<LogEntryValue, "item"> | undefined,
): Agreed {
  const limit = agreedLimit(priced.input, foundBy(priced.input, entry ? [...log, entry] : log));
  if (!limit) throw new Error(`What agreement ${agreement.id} covers has problems.`);
  return { ...priced, agreement, limit, spent: logged(input, priced.sheet, log) };
}

/** Possible work that was logged proved necessary: ids of its groups on the sheet. */
function foundBy({ items }: EstimateInput, log: readonly Pick<LoggedWork, "item">[]): string[] {
  const worked = new Set(log.map(({ item }) => item));
  return items.flatMap(({ id, certainty }) => (certainty.is === "if found" && worked.has(id) ? [certainty.group ?? id] : []));
}

/** Agreed work that a later draft dropped may have been logged: it is still known. */
function withItemsOf(input: EstimateInput, agreed: readonly WorkItem[]): EstimateInput {
  const known = new Set(input.items.map(({ id }) => id));
  return { ...input, items: [...input.items, ...agreed.filter(({ id }) => !known.has(id))] };
}
