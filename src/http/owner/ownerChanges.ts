import { type ChangeList, changesBetween } from "../../estimating/agreement/changeList.js";
import type { Revision } from "../../estimating/agreement/rowChanges.js";
import type { OwnerChanges } from "../../pages/owner/view.js";
import { causesText, fieldText, figureText, rowTitle } from "../../wording/change.js";
import type { Tongue } from "../../wording/tongue.js";

/**
 * What changed since the revision before or what is agreed of it, in words; undefined where the two cannot be compared. `paid`: payments
 * are on record, and what the estimates count as paid no longer does.
 */
export function ownerChanges(before: Revision, after: Revision, tongue: Tongue, paid: boolean): OwnerChanges | undefined {
  const list = changesBetween(before, after);
  if (!list) return undefined;
  return {
    since: list.since.revision ?? 0,
    agreed: list.since.agreed === true,
    total: list.sums.total,
    causes: list.causes.map((cause) => ({ cause: cause.cause, text: causesText(cause, tongue), amount: cause.amount })),
    rows: list.rows.map((row) => ({
      mark: row.mark,
      title: rowTitle(row, tongue),
      amount: row.amount,
      inTotal: row.is === "line" || row.is === "adjustment",
      ...(row.reason !== undefined && { reason: row.reason }),
      fields: row.fields.map((field) => fieldText(field, tongue)),
    })),
    ...(list.faults && { faults: list.faults }),
    figures: figuresToTell(list, paid).map((figure) => figureText(figure, tongue, list.since.agreed)),
  };
}

/** Where nothing is paid yet, what is due says the same as the total. */
function figuresToTell({ figures }: ChangeList, paid: boolean): ChangeList["figures"] {
  const total = figures.find(({ figure }) => figure === "total");
  if (paid) return figures.filter(({ figure }) => figure !== "due" && figure !== "paid already");
  return figures.filter(({ figure, before, after }) => figure !== "due" || before !== total?.before || after !== total?.after);
}
