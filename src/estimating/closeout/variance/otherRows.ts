/** Everything of a sheet that is neither work nor parts, and what was logged without being agreed. */
import type { Minor } from "../../input.js";
import { fromMilli } from "../../money/scales.js";
import type { Adjustment, Line, Sheet } from "../../sheet.js";
import type { ActualLines } from "../actual/actualLines.js";
import type { PartsDone } from "../actual/partsDone.js";
import { amountDone, milliDone, type WorkDone } from "../actual/workDone.js";
import { CATEGORY_OF, figures, type Row } from "./row.js";
import type { Sheets } from "./variance.js";

/** Allowances for risk, billing steps and fees. The actual figures take the place of what was charged for risk. */
export function standingRows(sheets: Sheets, actual: ActualLines): Row[] {
  const other = ({ lines }: Pick<Sheet, "lines">) =>
    new Map(
      lines.filter(({ sort }) => ["billing steps", "risk", "fees"].includes(CATEGORY_OF[sort])).map((line) => [line.id, line]),
    );
  return paired(other(sheets.quoted), other(sheets.agreed), other(sheets.allowed), other(actual)).map(
    ([line, amounts]): Row => ({
      id: line.id,
      category: CATEGORY_OF[line.sort],
      is: { line },
      ...figures(amounts, CATEGORY_OF[line.sort] === "risk" ? "risk" : "terms"),
    }),
  );
}

export function adjustmentRows(sheets: Sheets, actual: ActualLines): Row[] {
  const signed = ({ adjustments }: Pick<Sheet, "adjustments">) =>
    new Map(adjustments.map((each) => [each.id, { ...each, amount: each.charge ? each.amount : -each.amount }]));
  const printed = new Map(
    [sheets.quoted, sheets.agreed, sheets.allowed, actual].flatMap(({ adjustments }) =>
      adjustments.map((each): [string, Adjustment] => [each.id, each]),
    ),
  );
  return paired(signed(sheets.quoted), signed(sheets.agreed), signed(sheets.allowed), signed(actual)).map(
    ([{ id }, amounts]): Row => ({
      id,
      category: "allowances and charges",
      is: { adjustment: printed.get(id)! },
      ...figures(amounts, "terms"),
    }),
  );
}

export function notAgreedRows(work: readonly WorkDone[], parts: readonly PartsDone[]): Row[] {
  const row = (line: Line, amount: Minor): Row => ({
    id: `not agreed ${line.id}`,
    category: "not agreed",
    is: { line: { ...line, amount } },
    ...figures({ quoted: 0, agreed: 0, allowed: 0, actual: amount }, "not agreed"),
  });
  return [
    ...work
      .filter(({ agreed }) => !agreed)
      .map((done): Row => {
        const { line } = done;
        const item = line.from.find((source) => source.is === "item")?.id;
        return {
          ...row(line, amountDone(done)),
          ...(item !== undefined && { item }),
          ...(line.assembly && { assembly: line.assembly }),
          minutes: { quoted: 0, agreed: 0, allowed: 0, actual: fromMilli(milliDone(done)) },
        };
      }),
    ...parts
      .filter(({ agreed }) => !agreed)
      .map(
        ({ line, amount, pieces, used }, index): Row => ({
          ...row(line, amount),
          id: `not agreed ${line.id}/${index + 1}`,
          ...(new Set(used.map(({ item }) => item)).size === 1 && { item: used[0]!.item }),
          pieces: { quoted: 0, agreed: 0, allowed: 0, actual: pieces },
        }),
      ),
  ];
}

interface Amount {
  readonly id: string;
  readonly amount: Minor;
}

/** In the order of the allowed, then of what only others have. */
function paired<T extends Amount>(
  quoted: ReadonlyMap<string, T>,
  agreed: ReadonlyMap<string, T>,
  allowed: ReadonlyMap<string, T>,
  actual: ReadonlyMap<string, T>,
) {
  const ids = new Set([...allowed.keys(), ...agreed.keys(), ...quoted.keys(), ...actual.keys()]);
  return [...ids].map((id) => {
    const amount = (all: ReadonlyMap<string, T>) => all.get(id)?.amount ?? 0;
    const shown = allowed.get(id) ?? agreed.get(id) ?? quoted.get(id) ?? actual.get(id)!;
    return [shown, { quoted: amount(quoted), agreed: amount(agreed), allowed: amount(allowed), actual: amount(actual) }] as const;
  });
}
