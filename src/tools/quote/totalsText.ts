/** Allowances and charges, tax, total, and the figures that stand beside the total. */
import type { RateBook } from "../../estimating/input.js";
import type { Sheet } from "../../estimating/sheet.js";
import { chance, money } from "../../wording/figures.js";
import { adjustmentTitle } from "../../wording/line.js";
import { taxRoundingText } from "../../wording/reasons.js";
import { day } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { columns } from "./columns.js";
import { daysText } from "./workText.js";

export function totalsText({ adjustments, totals }: Sheet, tongue: Tongue): string[] {
  const { pricesIncludeTax, prepaid } = totals;
  const rows: [string, string][] = [
    [pricesIncludeTax ? "Lines, tax included" : "Lines", money(totals.linesNet, tongue)],
    ...adjustments.map((one): [string, string] => [
      adjustmentTitle(one, tongue),
      money(one.charge ? one.amount : -one.amount, tongue),
    ]),
    ["Without tax", money(totals.withoutTax, tongue)],
    ...totals.taxGroups.map((group): [string, string] => [
      `${group.name} on ${money(group.base, tongue)}`,
      money(group.tax, tongue),
    ]),
    ["TOTAL", money(totals.total, tongue)],
    ...(prepaid === 0
      ? []
      : ([
          ["Paid already", money(-prepaid, tongue)],
          ["Due", money(totals.due, tongue)],
        ] as [string, string][])),
  ];
  return [...columns(rows, ["<", ">"]), taxRoundingText(totals.rounding)];
}

export function termsText(sheet: Sheet, tongue: Tongue): string[] {
  const { ceiling, ifDeclined, deposit } = sheet;
  const limited = ifDeclined.limited ? ", the limit agreed" : "";
  return columns(
    [
      ["Ceiling", money(ceiling.amount, tongue)],
      ["If declined after opening", `${money(ifDeclined.amount, tongue)}${limited}`],
      ["Deposit", money(deposit.amount, tongue)],
      ["Days to complete", daysText(sheet)],
      ["Valid until", day(sheet.validUntil, tongue.locale)],
    ],
    ["<", "<"],
  );
}

/** Title and lines. */
export type Section = readonly [title: string, lines: readonly string[]];

export function choicesText(
  { options, ifFound, suggestions }: Sheet,
  { partTypes }: RateBook,
  tongue: Tongue,
): readonly Section[] {
  const { locale } = tongue;
  return [
    [
      "Options (the price of each with everything else as chosen, tax included)",
      columns(
        options.map(({ chosen, names, price, reason }) => [
          chosen ? "[x]" : "[ ]",
          names.join(", "),
          money(price, tongue),
          reason ?? "",
        ]),
        ["<", "<", ">", "<"],
      ),
    ],
    [
      ifFound.some(({ covered }) => covered)
        ? "If found (covered by the fixed price)"
        : "If found (charged only when needed, on top of the total, tax included)",
      columns(
        ifFound.map(({ probability = 0, names, price, covered, reason }) => [
          chance(probability, locale),
          names.join(", "),
          covered ? "covered" : money(price, tongue),
          reason ?? "",
        ]),
        [">", "<", ">", "<"],
      ),
    ],
    [
      "Worth doing while it is open (tax included)",
      columns(
        suggestions.map(({ assembly, operation, count, partType, now, later, reason }) => [
          assembly.name,
          [operation.name, partTypes.find(({ id }) => id === partType)?.name].filter(Boolean).join(": "),
          String(count),
          money(now, tongue),
          `instead of ${money(later, tongue)} later`,
          reason,
        ]),
        ["<", "<", ">", ">", "<", "<"],
      ),
    ],
  ];
}
