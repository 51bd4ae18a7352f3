/**
 * What is said of a draft and of the records it refers to, and what of it is written: only what the sender changed. What the sender did
 * not change stays as it stands by now; what both changed is refused by name.
 */
import { and, eq, or, sql } from "drizzle-orm";
import { z } from "zod";
import { same } from "../estimating/agreement/canonical.js";
import type { Kept } from "../records/columns.js";
import type { Database } from "../records/database.js";
import { type BareInput, type Facts, factsOf, priced, UNIT_FACTS, VISIT_FACTS } from "../records/estimates.js";
import { type Model, models, modelsTable } from "../records/models.js";
import { withoutNulls } from "../records/noun.js";
import { type Owner, owners, ownersTable } from "../records/owners.js";
import { rateBooksTable } from "../records/rateBooks.js";
import type { Write } from "../records/trail.js";
import { type Desk, refused, wrongField } from "./act.js";
import { engineFaults, type Fault } from "./fault.js";
import { bareInput, language } from "./shapes/estimateInput.js";
import { address, hazard, ident, label, line, maybe } from "./shapes/primitives.js";
import { teardownMap } from "./shapes/teardownMap.js";
import { unit } from "./shapes/unit.js";

const party = z.strictObject({
  ...{ name: maybe(label), address: maybe(z.array(line)), phone: maybe(line), email: maybe(line) },
  language: maybe(language),
});
/** What stood before e-mails were looked at may be no address; what is written is one. */
const partyNow = party.extend({ email: maybe(address) });
type PartySaid = Pick<Owner, (typeof PARTY)[number]>;
const PARTY = ["name", "address", "phone", "email", "language"] as const;

export const draftFields = {
  rateBookId: ident,
  rateBookVersion: z.int().min(1).max(1_000_000_000_000),
  input: bareInput,
  unfinished: maybe(z.boolean()).meta({ description: "Kept though it has problems, and so no price yet" }),
  owner: maybe(partyNow.extend({ id: maybe(ident) })).meta({ description: "Of the record `id`, or a new one; absent: it stays" }),
  modelId: maybe(ident).meta({ description: "The model whose map the unit follows" }),
  map: maybe(
    z.strictObject({
      map: teardownMap,
      hazards: maybe(z.array(hazard)),
      replaces: maybe(z.string().max(120)).meta({ description: "Id and version of the map it takes the place of" }),
    }),
  ).meta({ description: "Kept for the next unit of this model" }),
  was: maybe(
    z.strictObject({
      owner: maybe(party),
      unit: maybe(unit.omit({ grade: true, found: true, storedData: true, power: true }).partial()),
    }),
  ).meta({ description: "What stood when it was read: what still reads so was not changed, and is not written" }),
};
export type DraftSaid = z.output<z.ZodObject<typeof draftFields>>;

type Loosely<V> = { readonly [K in keyof V]?: V[K] | undefined };

/** No record is without these. */
const WANTED: readonly string[] = ["name", "maker", "model"];

/** Keys to write, and those that someone else changed meanwhile to something else. Without `was`, what is not said stays. */
export function reconciled<V extends object>(
  stands: V,
  keys: readonly (keyof V & string)[],
  now: Loosely<V>,
  was: Loosely<V> | undefined,
) {
  const said = (key: keyof V) => now[key] !== undefined && (now[key] as unknown) !== "";
  const changed = keys.filter(
    (key) => (said(key) || (was && !WANTED.includes(key))) && !(was && same(now[key], was[key])) && !same(now[key], stands[key]),
  );
  // An empty text is nothing, as a form has it.
  const some = (value: unknown) => (value === "" ? undefined : value);
  const isClash = (key: keyof V) => was !== undefined && !same(some(stands[key]), some(was[key]));
  const free = changed.filter((key) => !isClash(key));
  return { keys: Object.fromEntries(free.map((key) => [key, now[key]])) as Partial<V>, clashes: changed.filter(isClash) };
}

export const saysAny = (keys: object): boolean => Object.keys(keys).length > 0;

export const changedMeanwhile = (pointer: string, stands: unknown): Fault => ({
  pointer,
  name: "changed meanwhile",
  detail: `${pointer.slice(1).replaceAll("/", ".")} was changed by someone else since it was read; by now it is ${JSON.stringify(stands ?? null)}.`,
});

/** The records that are named in what is said. */
export async function recordsNamed(db: Database, { owner, modelId, input, rateBookId, rateBookVersion }: DraftSaid) {
  const { maker, model } = input.unit;
  const called = and(sql`lower(${modelsTable.maker}) = lower(${maker})`, sql`lower(${modelsTable.model}) = lower(${model})`);
  const isCalled = sql<number>`${called}`.mapWith(Boolean);
  const [[person], maps, [book]] = await db.batch([
    db
      .select()
      .from(ownersTable)
      .where(eq(ownersTable.id, owner?.id ?? "")),
    db
      .select({ row: modelsTable, isCalled })
      .from(modelsTable)
      .where(or(eq(modelsTable.id, modelId ?? ""), called)),
    db
      .select({ book: rateBooksTable.book })
      .from(rateBooksTable)
      .where(and(eq(rateBooksTable.id, rateBookId), eq(rateBooksTable.version, rateBookVersion))),
  ]);
  const mapOf = (found: (typeof maps)[number] | undefined) => found && withoutNulls<Model & Kept>(found.row);
  return {
    rateBook: book?.book,
    owner: person && withoutNulls<Owner & Kept>(person),
    started: mapOf(maps.find(({ row }) => row.id === modelId)),
    called: mapOf(maps.find((each) => each.isCalled)),
  };
}
export type RecordsNamed = Awaited<ReturnType<typeof recordsNamed>>;

/** The record that is referred to from now on, and what is written for it. */
interface Referred<Id = string> {
  readonly id: Id;
  readonly writes?: readonly Write[];
  readonly clashes?: readonly Fault[];
}

/** The owner on record with what was changed, or a new one under `fresh`. */
export function ownerSaid({ db, at }: Desk, said: DraftSaid, { owner: known }: RecordsNamed, fresh: string): Referred {
  const { id: _, name = "", ...rest } = said.owner ?? {};
  if (!known) return { id: fresh, writes: [owners.made(db, fresh, { name, ...rest }, at).write] };
  const { keys, clashes } = reconciled<PartySaid>(known, PARTY, { name, ...rest }, said.was?.owner);
  return {
    id: known.id,
    ...(saysAny(keys) && { writes: [owners.changed(db, known, keys, at).write] }),
    clashes: clashes.map((key) => changedMeanwhile(`/owner/${key}`, known[key])),
  };
}

/** The map that is kept now, or the one the unit follows. */
export function mapSaid(
  { db, at, newId }: Desk,
  { input, map: kept }: DraftSaid,
  { started, called }: RecordsNamed,
): Referred<string | undefined> {
  if (!kept) return { id: started?.id };
  const { maker, model } = input.unit;
  const { replaces, ...value } = kept;
  if (!called) {
    const id = newId();
    return { id, writes: [models.made(db, id, { maker, model, ...value }, at).write] };
  }
  if (same(kept.map, called.map) && (!kept.hazards || same(kept.hazards, called.hazards))) return { id: called.id };
  return replaces === `${called.id} ${called.version}`
    ? { id: called.id, writes: [models.changed(db, called, value, at).write] }
    : { id: called.id, clashes: [changedMeanwhile("/map", `version ${called.version}`)] };
}

/** What is said of the unit and the visit, held against what stands of them. */
export function factsSaid(stands: Facts, { input, was }: DraftSaid) {
  const unit = reconciled<Facts>(stands, UNIT_FACTS, input.unit, was?.unit);
  const visit = reconciled<Facts>(stands, VISIT_FACTS, input.unit, was?.unit);
  return {
    unit: unit.keys,
    visit: visit.keys,
    facts: factsOf({ ...stands, ...unit.keys }, { ...stands, ...visit.keys }),
    clashes: [...unit.clashes, ...visit.clashes].map((key) => changedMeanwhile(`/input/unit/${key}`, stands[key])),
  };
}

/** What the input comes to. One with problems is kept only where that is wanted, and its rows can hold it. */
export async function reckoned(
  { rateBookId, rateBookVersion, unfinished }: DraftSaid,
  { rateBook }: RecordsNamed,
  input: BareInput,
) {
  if (!rateBook) return noBook(rateBookId, rateBookVersion);
  const { problems, ...made } = await priced({ ...input, rateBook });
  const holds = problems.length === 0 || (unfinished && Number.isSafeInteger(input.unit.declaredValue ?? 0));
  return holds ? made : refused("input refused", { errors: engineFaults(problems, "/input") });
}

const noBook = (id: string, version: number) =>
  wrongField(
    "/rateBookId",
    "record unknown",
    `rateBookId is '${id} version ${version}', which names no record; add that one first.`,
  );
