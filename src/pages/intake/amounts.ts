/** What stands beside a row of the form and follows what is typed: the amount of a line or a place, and how long a place takes to reach. */
import { ownAmounts, placeAmounts } from "../../estimating/sheet/ownAmounts.js";
import { money } from "../../wording/figures.js";
import { duration } from "../../wording/time.js";
import { WHOLE_UNIT } from "../form/draft.js";
import { idOf, key } from "../form/fields.js";
import type { IntakeView } from "./view.js";

/** `place ROW`, `reached ROW` and `item ID` -> text. Amounts are as the lines of the sheet have them, before allowances and tax. */
export function amountsOf({ sheet, read: { input }, context }: IntakeView): ReadonlyMap<string, string> {
  const said = new Map<string, string>();
  if (!sheet) return said;
  const { lines, options, ifFound, totals } = sheet;
  for (const [id, amount] of ownAmounts(sheet, input.items)) said.set(`item ${id}`, money(amount, context));
  for (const { items, price, net, chosen } of [...options, ...ifFound]) {
    if (chosen || items.length !== 1) continue;
    said.set(`item ${items[0]!}`, `(${money(totals.pricesIncludeTax ? price : net, context)})`);
  }
  for (const [id, amount] of placeAmounts(sheet, input.items))
    said.set(`place ${id === "" ? WHOLE_UNIT : key(id)}`, money(amount, context));
  for (const { sort, assembly, minutes } of lines)
    if (sort === "access" && assembly && minutes !== undefined)
      said.set(`reached ${key(assembly.id)}`, duration(minutes, context.locale));
  for (const id of sheet.access.alreadyOpen) said.set(`reached ${key(id)}`, "open already");
  return said;
}

/** The item that a line or a cell of the form makes. */
export const itemOf = (line: string): string => `item ${idOf(line)}`;
