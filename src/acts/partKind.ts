/** Part kinds: the catalogue. A type may be called by its name; the value must be readable in the figures of the type. */
import { z } from "zod";
import type { PartKind, RateBook } from "../estimating/input.js";
import { SCARCITIES } from "../estimating/lists.js";
import { readMarking } from "../estimating/parts/marking.js";
import { LIMITS } from "../estimating/problems.js";
import type { Kept } from "../records/columns.js";
import { offers, offersFor } from "../records/offers.js";
import { onOrder } from "../records/orders.js";
import { type PartKindValue, partKinds } from "../records/partKinds.js";
import { counted } from "../wording/list.js";
import type { Refusal } from "./act.js";
import { faultsIn, shopRateBook } from "./checked.js";
import type { Fault } from "./fault.js";
import { choice, decimal, line, maybe, named, note, tick, whole } from "./field.js";
import { openJobs } from "./partsToGet.js";
import { adding, type Recorded, replacing, withdrawal, withdrawing } from "./record.js";
import { keptKeys } from "./shapes/resources.js";

export const partKindFields = z.strictObject({
  type: named("Part type"),
  name: line("Name"),
  value: maybe(line("Value", { hint: "Such as 4u7, 100n or 4k7" })),
  ratedVolts: maybe(decimal("Rated volts", { unit: "V", least: 0, most: 1_000_000, decimals: 3 })),
  tolerancePercent: maybe(decimal("Tolerance", { unit: "%", least: 0, most: 1000, decimals: 4 })),
  form: maybe(line("Form")),
  audioGrade: maybe(tick("Audio grade")),
  leads: maybe(whole("Leads", { least: 0, most: 1000 })),
  scarcity: maybe(choice("Scarcity", SCARCITIES, { hint: "Not said: as the offers and the shelf have it" })),
  stock: maybe(whole("In stock", { least: 0, most: LIMITS.stock })).meta({ description: "Absent in a change: as it stands" }),
  notes: maybe(note("Notes")),
});

export const typeNamed = ({ partTypes }: RateBook, text: string | undefined) => {
  const wanted = text?.trim().toLowerCase();
  return partTypes.find(({ id, name }) => id.toLowerCase() === wanted || name.toLowerCase() === wanted);
};

export const withType = (value: PartKindValue, book: RateBook): PartKindValue => ({
  ...value,
  type: typeNamed(book, value.type)?.id ?? value.type,
});

/** Families whose values are marked in figures. */
const IN_FIGURES = new Set(["capacitor", "resistor", "control"]);

/** What is wrong with a value in the figures of its type. */
export function markingFault(value: string | undefined, family: string | undefined): Fault | undefined {
  if (value === undefined || family === undefined || !IN_FIGURES.has(family)) return undefined;
  if (readMarking(value, family as never)) return undefined;
  const detail = `Value: '${value.slice(0, 60)}' cannot be read as a value; write it as 4u7, 100n or 4k7.`;
  return { pointer: "/value", name: "value unreadable", detail };
}

export function partKindFaults(value: PartKindValue, book: RateBook): readonly Fault[] {
  const type = book.partTypes.find(({ id }) => id === value.type);
  const unreadable = markingFault(value.value, type?.family);
  return [...(unreadable ? [unreadable] : []), ...faultsIn({ kinds: [{ ...value, id: "new" } as PartKind] }, book, "/kinds/0")];
}

export const partKind = {
  one: "part kind",
  fields: partKindFields,
  kept: partKindFields.extend({ ...keptKeys, withdrawal }).meta({ id: "PartKindRecord" }),
  rows: partKinds,
  // Else every change that does not speak of it would empty the shelf.
  stays: ["stock"],
  settled: async ({ db }, value) => withType(value, await shopRateBook(db)),
  check: async ({ db }, value) => partKindFaults(value, await shopRateBook(db)),
} satisfies Recorded<PartKindValue, PartKindValue & Kept>;
export const addPartKind = adding(partKind);
export const replacePartKind = replacing(partKind);
/** By a page; the shelf is counted on another. */
export const changePartKind = replacing(partKind, { ...replacePartKind, fields: partKindFields.omit({ stock: true }) });

export const withdrawPartKind = withdrawing(partKind, {
  held: async ({ db }, { id, name, stock = 0 }) => {
    const held = (detail: string): Refusal => ({ is: "part wanted", detail });
    if (stock > 0)
      return held(`${counted(stock, "piece")} of ${name} ${stock === 1 ? "is" : "are"} on the shelf; count them to 0 first.`);
    const coming = (await onOrder(db)).get(id) ?? 0;
    if (coming > 0)
      return held(`${counted(coming, "piece")} of ${name} ${coming === 1 ? "is" : "are"} on order; end the order first.`);
    const job = (await openJobs(db)).find(({ parts }) => parts.some(({ part }) => part.kind === id));
    return job && held(`Job ${job.number} was agreed to with ${name}; close it first, or revise it to another part.`);
  },
  beside: async ({ db, at }, { id }, told) =>
    (await offersFor(db, [id])).map((offer) => offers.changed(db, offer, { withdrawal: told }, at).write),
});
