/** The shop's billing step and least charge, each as a line of its own. */
import { type Book, known } from "../book.js";
import type { RateBook } from "../input.js";
import { fromMilli, priceMilli, toMilli } from "../money/scales.js";
import type { Line } from "../sheet.js";
import { isByTime, type LabourLine } from "./times.js";

/** For each attended labour class in use, in rate book order: the minutes that bring its total up to the next step. */
export function roundingLines(labour: readonly LabourLine[], rateBook: RateBook, book: Book): Line[] {
  const step = toMilli(rateBook.billing.incrementMinutes);
  if (step === 0) return [];
  const used = new Map<string, number>();
  for (const each of labour) {
    const { labourClass, times, attended } = each;
    if (attended && isByTime(each)) used.set(labourClass, (used.get(labourClass) ?? 0) + times.likely);
  }
  return rateBook.labourClasses.flatMap(({ id, name, ratePerHour }): Line[] => {
    const total = used.get(id) ?? 0;
    const missing = (step - (total % step)) % step;
    if (missing === 0) return [];
    const { at } = known(book.classes, id);
    return [
      {
        id: `rounding:${id}`,
        sort: "labour rounding",
        taxClass: "labour",
        taxCategory: rateBook.tax.labour,
        labourClass: { id, name },
        minutes: fromMilli(missing),
        amount: priceMilli(missing, ratePerHour),
        why: { rule: "increment", minutes: fromMilli(total), increment: rateBook.billing.incrementMinutes },
        from: [
          { is: "rate book", entry: "/billing/incrementMinutes" },
          { is: "rate book", entry: `/labourClasses/${at}` },
          { is: "rule", rule: "billing increment" },
        ],
      },
    ];
  });
}

/** What labour and access together lack of the least charge; nothing when no time is charged: a price that was said is the price. */
export function minimumLine(labour: readonly Line[], rateBook: RateBook): Line[] {
  const minimum = rateBook.billing.minimumCharge;
  const missing = minimum - labour.reduce((sum, { amount }) => sum + amount, 0);
  if (labour.every(({ why }) => why?.rule === "fixed price") || missing <= 0) return [];
  return [
    {
      id: "minimum",
      sort: "minimum charge",
      taxClass: "labour",
      taxCategory: rateBook.tax.labour,
      amount: missing,
      why: { rule: "minimum", minimum },
      from: [
        { is: "rate book", entry: "/billing/minimumCharge" },
        { is: "rule", rule: "minimum charge" },
      ],
    },
  ];
}
