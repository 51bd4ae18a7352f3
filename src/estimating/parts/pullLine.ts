/** Pulling parts from a donor unit: access labour that the condition of the owner's unit does not change. */
import { type Book, known } from "../book.js";
import type { RateBook } from "../input.js";
import type { LabourLine } from "../labour/times.js";
import { priceMilli, toMilli } from "../money/scales.js";
import type { PullWork } from "./priceParts.js";

export function pullLine(pull: PullWork, rateBook: RateBook, book: Book): LabourLine {
  const { is: labourClass, at } = known(book.classes, rateBook.accessClass);
  const milli = toMilli(pull.minutes);
  return {
    times: { low: milli, likely: milli, high: milli },
    attended: labourClass.attended,
    labourClass: labourClass.id,
    line: {
      id: `pull:${pull.offer}`,
      sort: "donor pull",
      taxClass: "labour",
      taxCategory: rateBook.tax.labour,
      part: pull.part,
      labourClass: { id: labourClass.id, name: labourClass.name },
      count: pull.count,
      minutes: pull.minutes,
      amount: priceMilli(milli, labourClass.ratePerHour),
      from: [
        ...pull.items.map((id) => ({ is: "item", id }) as const),
        { is: "offer", id: pull.offer, source: pull.source, on: pull.on },
        { is: "rate book", entry: `/labourClasses/${at}` },
      ],
    },
  };
}
