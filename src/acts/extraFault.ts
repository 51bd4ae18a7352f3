/** Work found while the unit is open: what it costs now and at a later visit, and how it comes into the next draft. */
import { z } from "zod";
import { type ExtraFault, extraFault as priceExtra } from "../estimating/agreement/extraFault.js";
import { replacementIn } from "../estimating/book.js";
import { estimate as compute } from "../estimating/estimate.js";
import type { Certainty, EstimateInput, Minor, PartKind, PartPrice, ThreePoint, WorkItem } from "../estimating/input.js";
import { CERTAINTIES, OFFER_STATES } from "../estimating/lists.js";
import { ratesTaken } from "../estimating/money/landed.js";
import { LIMITS, type Problem } from "../estimating/problems.js";
import { type Estimate, estimates, priced } from "../records/estimates.js";
import { type ShopRows, shopRows } from "../records/shopRows.js";
import { foundByName, type Named, notListedText, unknownNameText } from "../wording/named.js";
import { problemText } from "../wording/problem.js";
import { act, type Desk, refused, wrongField } from "./act.js";
import { begun, onceMore } from "./beginDraft.js";
import type { Fault } from "./fault.js";
import { choice, decimal, line, maybe, money, named, note, sayingOf, several, tick, whole } from "./field.js";
import type { JobAsItStands } from "./job.js";
import { keptEstimate } from "./shapes/resources.js";
import { today } from "./today.js";

const fields = z
  .strictObject({
    reason: note("What you found, for the owner to read"),
    part: maybe(named("Part to replace", { hint: "Empty where nothing is replaced." })),
    count: maybe(whole("Count", { least: 1, most: LIMITS.count, hint: "Empty: 1." })),
    work: maybe(named("Work", { hint: "Empty: the part is replaced." })),
    own: maybe(line("Work in your own words", { most: LIMITS.ownWords, hint: "In place of work from the rate book." })),
    minutes: maybe(decimal("Minutes each, likely", { least: 0, most: LIMITS.minutes, decimals: 3 })),
    minutesLow: maybe(decimal("At best", { least: 0, most: LIMITS.minutes, decimals: 3, hint: "Empty: as likely." })),
    minutesHigh: maybe(decimal("At worst", { least: 0, most: LIMITS.minutes, decimals: 3, hint: "Empty: as likely." })),
    price: maybe(money("Fixed price each", { hint: "Of work in your own words, whatever time it takes." })),
    ownPart: maybe(
      line("Part in your own words", {
        most: LIMITS.ownWords,
        hint: "The part to replace then says what it is like, for its time.",
      }),
    ),
    partCost: maybe(money("What one costs", { hint: "Of a part in your own words, or in place of the catalogue's price." })),
    partReason: maybe(line("Why that price", { most: LIMITS.ownWords, hint: "Where the catalogue has another." })),
    partSource: maybe(line("Bought from", { most: LIMITS.ownWords })),
    partDays: maybe(whole("Days to arrive", { least: 0, most: LIMITS.count })),
    partState: maybe(choice("State it is in", OFFER_STATES, { hint: "Not said: new." })),
    partPack: maybe(whole("Pieces in a pack", { least: 1, most: LIMITS.count, hint: "Empty: 1." })),
    partMinimum: maybe(whole("Fewest packs", { least: 1, most: LIMITS.count, hint: "Empty: 1." })),
    partGood: maybe(
      decimal("Share expected good", {
        unit: "%",
        least: 1,
        most: 100,
        decimals: 2,
        hint: "Empty: as the rate book has that state.",
      }),
    ),
    partBrought: maybe(tick("The owner brings it", { hint: "It costs nothing, and carries no warranty of yours." })),
    where: maybe(named("Where", { hint: "Empty: the unit as a whole." })),
    certainty: maybe(choice("The owner's say", CERTAINTIES)),
    chance: maybe(decimal("Chance of it", { unit: "%", least: 0, most: 100, decimals: 8 })),
    open: maybe(several("Open now").meta({ description: "Assemblies that stand open beyond those the job opens, by id" })),
    base: maybe(
      line("Seen on top of").meta({
        description: "Id and version of the revision it was priced on, as id:version; another is refused",
      }),
    ),
  })
  .meta({ id: "ExtraFault" });
type Said = z.output<typeof fields>;

const cost = z
  .strictObject({ price: z.int(), net: z.int(), minutes: z.number(), opens: z.array(z.string()).readonly() })
  .meta({ id: "ExtraCost" });
const costs = z
  .strictObject({
    now: cost,
    later: cost,
    laterAtLeast: z.boolean().meta({ description: "Some of the work names no place, so that opening may come on top" }),
    total: z.int().meta({ description: "Of the whole revision with the work in it" }),
    aboveAgreed: maybe(z.int()),
  })
  .meta({ id: "ExtraFaultPriced" });
export type ExtraFaultPriced = z.output<typeof costs>;

interface On {
  readonly job: string;
}

export const priceExtraFault = act({
  name: "priceExtraFault",
  title: "What an extra fault costs now and at a later visit; nothing is kept",
  fields: fields.omit({ base: true }).meta({ id: "ExtraFaultAsked" }),
  answer: costs,
  decide: async (desk, said, on: On) => {
    const found = await foundIn(desk, said, on);
    if ("refused" in found) return found;
    const { job, extra } = found;
    const { now, later, laterAtLeast, revised } = extra;
    const outcome = compute(revised);
    if (!outcome.ok) throw new Error("Work that could be priced has problems.");
    const { total } = outcome.sheet.totals;
    const agreed = job.agreed()?.agreement.amount;
    const answer: ExtraFaultPriced = {
      now,
      later,
      laterAtLeast,
      total,
      ...(agreed !== undefined && { aboveAgreed: total - agreed }),
    };
    return { answer };
  },
});

export const addExtraFault = act({
  name: "addExtraFault",
  title: "Put an extra fault into the open draft, or into the next one",
  fields,
  answer: keptEstimate,
  decide: async (desk, said, on: On) => {
    const found = await foundIn(desk, said, on);
    if ("refused" in found) return found;
    const { job, latest, extra } = found;
    const { rateBook, ...input } = extra.revised;
    const { problems: _, ...made } = await priced(extra.revised);
    const { rateBookId, rateBookVersion } = latest;
    if (latest.issuedAt) return begun(desk, job, desk.newId(), { jobId: job.id, rateBookId, rateBookVersion, input, ...made });
    const { record, write } = estimates.changed(desk.db, latest, { input, ...made }, desk.at);
    return { answer: record, writes: [write] };
  },
});

export const seenAs = ({ id, version }: Estimate): string => `${id}:${version}`;

/** What it comes on top of: the newest revision, its prices read as of today, since a new offer is made today. */
export function baseOf(job: JobAsItStands, latest: Estimate, now: Date): EstimateInput {
  const { book, input } = latest.issuedAt ? onceMore(job, latest) : { book: job.inputOf(latest).rateBook, input: latest.input };
  return { ...input, rateBook: book, asOf: today(now, job.settings.timeZone) };
}

async function foundIn(desk: Desk, said: Said, on: On) {
  const [job, shop] = await Promise.all([desk.job(on.job), shopRows(desk.db, (timeZone) => today(desk.now, timeZone))]);
  const latest = job?.latest;
  if (!job || !latest) return refused("not found", { detail: "There is no such job, or it has no estimate." });
  if (said.base !== undefined && said.base !== seenAs(latest)) return refused("version moved", { current: latest });
  const base = baseOf(job, latest, desk.now);
  const item = itemSaid(said, base, shop);
  if ("refused" in item) return item;
  const input = withKind(base, shop, item);
  const extra = priceExtra(input, { items: [item] }, said.open);
  return extra.ok
    ? { job, latest, extra: extra as ExtraFault & { ok: true } }
    : refused("input refused", { errors: extra.problems.map((problem) => faultOf(problem, input.items.length)) });
}

/** What may be named: parts of the catalogue and part types, work, places. */
export const namesIn = ({ kinds: own = [], rateBook, map }: EstimateInput, kinds: readonly PartKind[]) => {
  const others = kinds.filter(({ id }) => !own.some((kind) => kind.id === id));
  return {
    part: [
      ...[...own, ...others].map(({ id, name }) => ({ id, name, is: { kind: id } })),
      ...rateBook.partTypes.map(({ id, name }) => ({ id, name, is: { type: id } })),
    ],
    work: [...rateBook.operations, ...(rateBook.services ?? [])] as readonly Named[],
    where: (map?.assemblies ?? []) as readonly Named[],
  };
};
type Names = ReturnType<typeof namesIn>;

/** Places are on a list; work and parts can be said without one. */
const OTHERWISE = {
  part: "say it below in your own words, with what it costs",
  work: "say it below in your own words, with its minutes or a price",
} as const;

const notKnown = (key: keyof Names, typed: string, known: readonly string[]): string =>
  key === "where" ? unknownNameText(typed, known) : notListedText(typed, known, "on a list", OTHERWISE[key]);

/** What is wrong with the names in what is said. */
export function namesWrong(
  names: Names,
  said: { readonly [K in keyof Names | "own" | "ownPart"]?: string | undefined },
): Fault[] {
  if (!said.part?.trim() && !said.work?.trim() && !said.own?.trim() && !said.ownPart?.trim())
    return [{ pointer: "/work", name: "key missing", detail: "Work is missing; name the work, or the part to replace." }];
  return (["part", "work", "where"] as const).flatMap((key) => {
    const [typed, among]: [string, readonly Named[]] = [said[key]?.trim() ?? "", names[key]];
    if (typed === "" || foundByName(typed, among)) return [];
    const known = among.map(({ name }) => name);
    const { label } = sayingOf(fields.shape[key])!;
    return [{ pointer: `/${key}`, name: "record unknown", detail: `${label}: ${notKnown(key, typed, known)}` }];
  });
}

/** A part without a kind of work is replaced; work without a place is for the whole unit; no count is one. */
function itemSaid(said: Said, input: EstimateInput, { kinds }: ShopRows): WorkItem | ReturnType<typeof refused> {
  const names = namesIn(input, kinds);
  const errors = namesWrong(names, said);
  if (errors.length > 0) return refused("input refused", { errors });
  const certainty = certaintyOf(said);
  if (!certainty) return wrongField("/chance", "key missing", "Chance of it is missing; give a number.");
  const known = said.part === undefined ? undefined : foundByName(said.part, names.part)?.is;
  const part = partSaid(said, known, [...(input.kinds ?? []), ...kinds]);
  const minutes = minutesSaid(said);
  const operation = said.work === undefined ? undefined : foundByName(said.work, names.work)?.id;
  const sold = input.rateBook.services?.find(({ id }) => id === operation);
  const assembly = said.where === undefined ? undefined : foundByName(said.where, names.where)?.id;
  return {
    id: freshId(input),
    ...(assembly && { assembly }),
    ...(sold
      ? { service: sold.id }
      : operation === undefined && said.own !== undefined
        ? {
            own: {
              name: said.own,
              ...(minutes && { minutes }),
              ...(said.price !== undefined && { price: said.price }),
            },
          }
        : {
            operation: operation ?? replacementIn(input.rateBook, part, [...(input.kinds ?? []), ...kinds]),
            ...(said.own !== undefined && { own: { name: said.own } }),
            ...(minutes && { minutes }),
          }),
    count: said.count ?? 1,
    ...(part && { part }),
    ...(said.partCost !== undefined && said.ownPart === undefined && { partPrice: priceSaid(said, said.partCost) }),
    ...{ certainty, reason: said.reason },
  };
}

/** A part in own words takes the time of what it is like. */
function partSaid(
  said: Said,
  known: { kind: string } | { type: string } | undefined,
  kinds: readonly PartKind[],
): WorkItem["part"] {
  if (said.ownPart === undefined) return known;
  const type = known && ("kind" in known ? kinds.find(({ id }) => id === known.kind)?.type : known.type);
  return {
    own: {
      name: said.ownPart,
      ...(type !== undefined && { type }),
      ...(said.partBrought && { broughtByOwner: true as const }),
      ...(said.partCost !== undefined && { cost: said.partCost }),
      ...(said.partSource !== undefined && { source: said.partSource }),
      ...(said.partDays !== undefined && { leadDays: said.partDays }),
      ...(said.partState !== undefined && { state: said.partState }),
      ...(said.partPack !== undefined && { packSize: said.partPack }),
      ...(said.partMinimum !== undefined && { minimumPacks: said.partMinimum }),
      ...(said.partGood !== undefined && { shareGood: Math.round(said.partGood * 100) / 10_000 }),
    },
  };
}

const priceSaid = ({ partReason = "", partSource }: Said, cost: Minor): PartPrice => ({
  cost,
  reason: partReason,
  ...(partSource !== undefined && { source: partSource }),
});

/** One figure is the same at best and at worst. */
function minutesSaid({ minutes, minutesLow, minutesHigh }: Said): ThreePoint | undefined {
  if (minutes === undefined) return undefined;
  return { low: minutesLow ?? minutes, likely: minutes, high: minutesHigh ?? minutes };
}

function certaintyOf({ certainty = "planned", chance }: Said): Certainty | undefined {
  if (certainty === "planned") return { is: certainty };
  if (certainty === "optional") return { is: certainty, chosen: false };
  return chance === undefined ? undefined : { is: certainty, probability: chance / 100 };
}

/** Its own id, whatever revision it comes into. */
function freshId({ items }: EstimateInput): string {
  const taken = new Set(items.map(({ id }) => id));
  for (let next = items.length + 1; ; next += 1) if (!taken.has(`extra${next}`)) return `extra${next}`;
}

/** With what the catalogue knows of a part that the job had no use for. */
function withKind(input: EstimateInput, { kinds, offers, exchange }: ShopRows, { part }: WorkItem): EstimateInput {
  const wanted = part && "kind" in part ? part.kind : undefined;
  if (wanted === undefined || input.kinds?.some(({ id }) => id === wanted)) return input;
  const known = new Set(input.offers?.map(({ id }) => id));
  const taken = [...(input.offers ?? []), ...offers.filter(({ id, kind }) => kind === wanted && !known.has(id))];
  const rates = ratesTaken({ ...input, offers: taken }, exchange, input.exchange);
  return {
    ...input,
    kinds: [...(input.kinds ?? []), ...kinds.filter(({ id }) => id === wanted)],
    offers: taken,
    ...(rates && { exchange: rates }),
  };
}

const FIELD: readonly (readonly [pointer: RegExp, field: string])[] = [
  [/\/count$/, "/count"],
  [/\/part\/own\/cost$/, "/partCost"],
  [/\/part\/own\/name$/, "/ownPart"],
  [/\/part\/own\/packSize$/, "/partPack"],
  [/\/part\/own\/minimumPacks$/, "/partMinimum"],
  [/\/part\/own\/shareGood$/, "/partGood"],
  [/\/partPrice\/reason$/, "/partReason"],
  [/\/partPrice/, "/partCost"],
  [/\/part/, "/part"],
  [/\/(own\/)?minutes/, "/minutes"],
  [/\/own$/, "/minutes"],
  [/\/own\/price$/, "/price"],
  [/\/own/, "/own"],
  [/\/assembly$/, "/where"],
  [/\/operation$/, "/work"],
  [/\/certainty/, "/chance"],
];

/** The engine's own complaints about the new line, at its fields; about anything else of the job, at the whole. */
function faultOf(problem: Problem, itemsBefore: number): Fault {
  const own = problem.pointer.startsWith(`/items/${itemsBefore}`);
  const pointer = own ? (FIELD.find(([pattern]) => pattern.test(problem.pointer))?.[1] ?? "/work") : "";
  return { pointer, name: problem.name, detail: problemText(problem) };
}
