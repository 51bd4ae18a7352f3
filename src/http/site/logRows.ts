/** An entry of the work log as a row that a person reads. */

import { asLogged, partOf, workOf } from "../../acts/asWork.js";
import { wordingFor } from "../../estimating/closeout/log/checkEntry.js";
import type { PartUsed } from "../../estimating/closeout/log/workLog.js";
import type { EstimateInput } from "../../estimating/input.js";
import { partOf as agreedPart } from "../../estimating/resolve.js";
import type { LogRow } from "../../pages/revise/workLogPage.js";
import type { Override } from "../../records/overrides.js";
import type { EntryKept, WorkedOn } from "../../records/workLog.js";
import { workTitle } from "../../wording/line.js";
import { capital } from "../../wording/list.js";

export function workedOnTitle(worked: WorkedOn, input: EstimateInput): string {
  const work = workOf(worked);
  const item = work.is === "item" ? input.items.find(({ id }) => id === work.id) : undefined;
  return item ? workTitle(item, input) : (worked.item ?? capital(wordingFor(input).work(workOf(worked))));
}

/** What was agreed, where another part was used. */
function standsInFor({ item: id, insteadOf }: PartUsed, input: EstimateInput): string {
  const item = input.items.find((each) => each.id === id);
  const agreed = item && agreedPart(item);
  return insteadOf && agreed ? `, in place of ${wordingFor(input).part(agreed)}` : "";
}

/** `when`: a moment as the shop writes it. */
export function logRow(
  entry: EntryKept,
  input: EstimateInput,
  overrides: readonly Override[],
  when: (iso: string) => string,
): LogRow {
  const { id, overrideId, person, workedOn, note, withdrawal } = entry;
  const override = overrides.find((each) => each.id === overrideId);
  const used = partOf(entry);
  const { minutes, parts } = asLogged(entry, input);
  return {
    ...{ id, person, workedOn, what: workedOnTitle(entry, input) },
    ...(used && { part: `${used.count} × ${wordingFor(input).part(used.part)}${standsInFor(used, input)}` }),
    ...(minutes !== undefined && { minutes }),
    ...(parts !== undefined && { parts }),
    ...(note && { note }),
    ...(override && { override: `${override.by}: ${override.reason}` }),
    ...(withdrawal && { withdrawn: `${withdrawal.by}, ${when(withdrawal.at)}: ${withdrawal.reason}` }),
  };
}
