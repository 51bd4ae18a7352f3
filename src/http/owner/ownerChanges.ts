import { type ChangeList, changeList } from "../../estimating/agreement/changeList.js";
import type { EstimateInput } from "../../estimating/input.js";
import type { OwnerChanges } from "../../pages/owner/view.js";
import { causesText, fieldText, figureText, rowTitle } from "../../wording/change.js";
import type { Tongue } from "../../wording/tongue.js";

/** What changed since the revision before, in words; undefined where the two cannot be compared. */
export function ownerChanges(before: EstimateInput, after: EstimateInput, tongue: Tongue): OwnerChanges | undefined {
  const list = changeList(before, after);
  if (!list) return undefined;
  return {
    since: list.since.revision ?? 0,
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
    figures: figuresToTell(list).map((figure) => figureText(figure, tongue)),
  };
}

/** Where nothing is paid yet, what is due says the same as the total. */
function figuresToTell({ figures }: ChangeList): ChangeList["figures"] {
  const total = figures.find(({ figure }) => figure === "total");
  return figures.filter(({ figure, before, after }) => figure !== "due" || before !== total?.before || after !== total?.after);
}
