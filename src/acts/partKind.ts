/** Part kinds: the catalogue. A type may be called by its name; the value must be readable in the figures of the type. */
import { z } from "zod";
import type { PartKind, RateBook } from "../estimating/input.js";
import { SCARCITIES } from "../estimating/lists.js";
import { stillWanted } from "../estimating/parts/jobParts.js";
import { readMarking } from "../estimating/parts/marking.js";
import { LIMITS } from "../estimating/problems.js";
import { experienceOf, jobsNaming } from "../records/catalogue.js";
import type { Kept } from "../records/columns.js";
import type { Database } from "../records/database.js";
import { offers, offersFor } from "../records/offers.js";
import { onOrder } from "../records/orders.js";
import { kindNames, type PartKindValue, partKinds, partKindsNamed } from "../records/partKinds.js";
import { counted, listed } from "../wording/list.js";
import { short, unknownNameText } from "../wording/named.js";
import type { Refusal } from "./act.js";
import { faultsIn, shopRateBook } from "./checked.js";
import type { Fault } from "./fault.js";
import { choice, decimal, line, maybe, named, note, tick, whole } from "./field.js";
import { openJobs } from "./partsToGet.js";
import { adding, type Recorded, replacing, withdrawal, withdrawing } from "./record.js";
import { keptKeys } from "./shapes/resources.js";
import { JOB_STATES, standings } from "./standing.js";

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

/** What was typed as a part and is none: the nearest, or the numbers of those that share the name; `but`: the id of one that is not meant. */
export async function noSuchKind(db: Database, typed: string, pointer: string, but?: string): Promise<Fault> {
  const same = (await partKindsNamed(db, typed)).filter(({ id }) => id !== but);
  const known = (await kindNames(db)).flatMap(({ id, name }) => (id === but ? [] : name));
  const detail =
    same.length > 1
      ? `Several parts are called '${short(typed)}'; give the number of the one meant, ${listed(
          same.map(({ id }) => id),
          "or",
        )}.`
      : known.length === 0
        ? `'${short(typed)}' is not in the catalogue, which is empty yet; add it there first, under Parts, Catalogue.`
        : unknownNameText(typed, known);
  return { pointer, name: "record unknown", detail: `Part: ${detail}` };
}

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

const NAMED_BY = 50;

/** What stands with a part: pieces to come, what it last cost, how good it proved, and the newest jobs that name it. */
export async function partStanding(db: Database, kind: string, now: Date): Promise<z.output<typeof partStandingShape>> {
  const [jobs, ordered, known, open] = await Promise.all([
    jobsNaming(db, kind, NAMED_BY),
    onOrder(db),
    experienceOf(db, [kind]),
    openJobs(db),
  ]);
  const states = await standings(
    db,
    jobs.map(({ id }) => id),
    now,
  );
  const wanted = new Map(
    open.map(({ id, parts, logged }) => [
      id,
      parts.filter(({ part }) => part.kind === kind).reduce((sum, part) => sum + stillWanted(part, logged), 0),
    ]),
  );
  const { last, tested = { good: 0, bad: 0 } } = known.get(kind) ?? {};
  return {
    ...{ onOrder: ordered.get(kind) ?? 0, tested },
    ...(last && { lastPaid: last }),
    jobs: jobs.map((job) => ({ ...job, state: states.get(job.id)!.state, wanted: wanted.get(job.id) ?? 0 })),
  };
}

export const partStandingShape = z
  .strictObject({
    onOrder: z.int().meta({ description: "Pieces to come" }),
    lastPaid: maybe(
      z.strictObject({ on: z.iso.date(), source: z.string(), paid: z.int(), pieces: z.int(), currency: z.string() }),
    ).meta({ description: "When pieces last came in: paid for all of them, in minor units, freight apart" }),
    tested: z.strictObject({ good: z.int(), bad: z.int() }),
    jobs: z.array(
      z.strictObject({
        ...{ id: z.string(), number: z.string(), unit: z.string(), state: z.enum(JOB_STATES) },
        wanted: z.int().meta({ description: "Pieces that the agreed work still wants" }),
      }),
    ),
  })
  .meta({ id: "PartStanding", description: "Pieces to come, what was last paid, how good they proved, and the newest 50 jobs" });
