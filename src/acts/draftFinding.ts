/**
 * Possible work that is found while a draft of the next revision is open is planned in it from then on, and is a chance again where that
 * was a mistake; what the shop says otherwise of it stays, and so does a draft that was saved by hand since.
 */
import { afterFinding, afterMistake } from "../estimating/agreement/choices.js";
import { isCharged } from "../estimating/labour/groups.js";
import { isFixed } from "../estimating/pricing/quote.js";
import { type Estimate, estimates, priced } from "../records/estimates.js";
import type { Write } from "../records/trail.js";
import { doneLeftOutText } from "../wording/agreement.js";
import { workTitle } from "../wording/line.js";
import type { Desk } from "./act.js";
import type { JobAsItStands } from "./job.js";

/** `found`: groups of the agreed sheet by then, with what is being logged or ticked off, without what is taken back. */
export async function draftFinding({ db, at }: Desk, job: JobAsItStands, found: readonly string[]): Promise<Write[]> {
  const [agreed, { draft }, before] = [job.agreedAsSaid(), job, job.found()];
  if (!agreed || !draft) return [];
  const fresh = found.filter((group) => !before.includes(group));
  const gone = isByHand(job, draft) ? [] : before.filter((group) => !found.includes(group));
  const items = afterMistake(afterFinding(draft.input.items, agreed.input, fresh), agreed.input, gone);
  if (items === draft.input.items) return [];
  const input = { ...draft.input, items };
  const { problems: _, ...made } = await priced(job.inputOf({ ...draft, input }));
  return [estimates.changed(db, draft, { input, ...made }, at).write];
}

/** Not as it was begun, nor as what was logged or ticked off left it. */
const isByHand = ({ everyEntry, tickOffs }: JobAsItStands, { createdAt, updatedAt }: Estimate): boolean =>
  ![createdAt, ...[...everyEntry, ...tickOffs].map(({ at }) => at)].includes(updatedAt);

/** Said where agreed work was logged or ticked off and the open draft does not charge it: it would be done for nothing. */
export function doneLeftOut(job: JobAsItStands): string | undefined {
  const [agreed, { draft }] = [job.agreedAsSaid()?.input, job];
  if (!agreed || !draft) return undefined;
  const worked = new Set(job.entries.map(({ item }) => item));
  const drafted = new Map(draft.input.items.map((item) => [item.id, item]));
  const covered = isFixed(agreed.policy);
  const left = agreed.items.filter((item) => {
    const wasAgreed = item.certainty.is === "if found" ? !covered : isCharged({ item });
    const now = drafted.get(item.id);
    return (
      wasAgreed && (worked.has(item.id) || (job.done[item.id] ?? 0) > 0) && !(now && now.count > 0 && isCharged({ item: now }))
    );
  });
  return left.length === 0 ? undefined : doneLeftOutText(left.map((item) => workTitle(item, agreed)));
}
