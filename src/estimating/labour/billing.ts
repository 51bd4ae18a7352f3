/** The shop's billing step and least charge. */
import { type Book, known } from "../book.js";
import type { RateBook } from "../input.js";
import { fromMilli, priceMilli, toMilli } from "../money/scales.js";
import { split } from "../money/split.js";
import type { Line } from "../sheet.js";
import { isByTime, type LabourLine } from "./times.js";

/** The lines that are charged, with the billing step within them; or, as books had it before, and where only their sums are looked at, after them. */
export function billed(labour: readonly LabourLine[], rateBook: RateBook, book: Book, onlySums = false): Line[] {
  const lines = labour.filter(({ behind }) => behind === undefined).map(({ line }) => line);
  const rounding = roundingLines(labour, rateBook, book);
  if (rateBook.billing.minutes !== "expected" || onlySums) return [...lines, ...rounding];
  return rounding.reduce((before, step) => withStep(before, step, labour), lines);
}

/** Minutes and amount of a step, handed out over the lines of its class by their minutes; counted boards keep their price apiece. */
function withStep(lines: readonly Line[], step: Line, labour: readonly LabourLine[]): Line[] {
  const byTime = new Set(labour.filter((each) => each.attended && isByTime(each)).map(({ line }) => line.id));
  const mine = lines.filter(({ id, labourClass }) => labourClass?.id === step.labourClass!.id && byTime.has(id));
  const kept = mine.some(({ unitPriceE4 }) => unitPriceE4 === undefined)
    ? mine.filter((line) => line.unitPriceE4 === undefined)
    : mine;
  const weights = kept.map(({ minutes = 0 }) => toMilli(minutes));
  const [amounts, millis] = [split(step.amount, weights), split(toMilli(step.minutes ?? 0), weights)];
  const at = new Map(kept.map(({ id }, index) => [id, index]));
  return lines.map((line) => {
    const index = at.get(line.id);
    if (index === undefined) return line;
    const { unitPriceE4: _, ...rest } = line;
    const minutes = fromMilli(toMilli(line.minutes ?? 0) + millis[index]!);
    return { ...rest, minutes, amount: line.amount + amounts[index]!, from: [...line.from, ...step.from] };
  });
}

/** For each attended labour class in use, in rate book order: the minutes that bring its total up to the next step. */
function roundingLines(labour: readonly LabourLine[], rateBook: RateBook, book: Book): Line[] {
  const step = toMilli(rateBook.billing.incrementMinutes);
  if (step === 0) return [];
  const used = new Map<string, number>();
  for (const each of labour) {
    const { labourClass, line, attended } = each;
    if (attended && isByTime(each)) used.set(labourClass, (used.get(labourClass) ?? 0) + toMilli(line.minutes ?? 0));
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
