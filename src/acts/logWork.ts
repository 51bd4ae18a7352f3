/**
 * Time, a part used, or both go into the work log of a job. Nobody passes what the owner agreed to by accident: an entry that would is
 * refused, or let through by an override on record.
 */

import { eq } from "drizzle-orm";
import { z } from "zod";
import { readMoment } from "../estimating/closeout/log/spent.js";
import { PART_STATES } from "../estimating/closeout/log/workLog.js";
import type { EstimateInput, Offer, PartKind } from "../estimating/input.js";
import { HAZARDS } from "../estimating/lists.js";
import { landed } from "../estimating/money/landed.js";
import { LIMITS } from "../estimating/problems.js";
import type { Database, Instant } from "../records/database.js";
import { tellingOf } from "../records/keptOnce.js";
import { kindOffered } from "../records/offers.js";
import { type OverrideValue, overridesTable } from "../records/overrides.js";
import { takeFromStock } from "../records/stock.js";
import { timersTable } from "../records/timers.js";
import { type LogEntry, type LogEntryValue, workLogTable } from "../records/workLog.js";
import { problemText } from "../wording/problem.js";
import { day as dayText } from "../wording/time.js";
import { act, type Decided, type Desk, refused, wrongField } from "./act.js";
import { partOf } from "./asWork.js";
import { draftFinding } from "./draftFinding.js";
import { elsewhere } from "./elsewhere.js";
import { choice, cost, count, day, decimal, hand, line, maybe, moment, note, someOf, tick } from "./field.js";
import { handOf } from "./hand.js";
import type { JobAsItStands } from "./job.js";
import { entryProblems, isOverridable, NO_JOB, overrideOf, passedBy, refusedFor } from "./mayLog.js";
import { keptOnce } from "./shapes/primitives.js";
import { today } from "./today.js";

export interface OnJob {
  readonly job: string;
}

export const WHO = "Who did it";
const MOST_MINUTES = 100_000;
const id = (label: string, description: string) => maybe(line(label, { most: 100 }).meta({ description }));

export const workKeys = {
  item: id("Work", "A work item; with none of the three: opening and refitting"),
  assembly: id("Opening and refitting of", "Opening and refitting of this assembly"),
  offer: id("Pulling parts of", "Pulling parts of this offer from a donor unit"),
};
const OWN_WORDS = { most: LIMITS.ownWords };
export const labourClass = maybe(line("Worked at", { most: 100 }));
export const person = line(WHO, { most: 200 });
export const noteKey = maybe(note("Note"));
export const override = maybe(z.strictObject({ by: line("Who decides", { most: 200 }), reason: line("Why") }));

const entryKeys = {
  ...workKeys,
  own: maybe(
    line("Work in your own words", { ...OWN_WORDS, hint: "What is on no list." }).meta({
      description: "Work that is on no list; `assembly` is then where. Nobody agreed to it, so it needs an override",
    }),
  ),
  ownHazards: maybe(someOf("Its dangers", HAZARDS, { hint: "Cautions follow them." }).readonly()),
  minutes: maybe(decimal("Minutes", { most: MOST_MINUTES, decimals: 3 }).meta({ description: "Minutes, up to three decimals" })),
  startedAt: maybe(moment("Start")),
  endedAt: maybe(moment("End")),
  labourClass,
  partKind: id("Part", "A part of the catalogue, used for `item`"),
  partType: id("Part", "A part type of the rate book, used for `item`"),
  ownPart: maybe(
    line("Part in your own words", { ...OWN_WORDS, hint: "With what one costs." }).meta({
      description:
        "A part that is on no list, at `paidPrice`. In place of the agreed one with `insteadOf`, else it needs an override",
    }),
  ),
  partCount: maybe(count("Pieces").meta({ description: "Pieces used up, bad ones included; 1 when absent" })),
  paidPrice: maybe(
    cost("Paid a piece", { hint: "As the estimate or its newest offer, if left empty." }).meta({
      description: "Paid for `paidPer` pieces; when absent the price its line has of its own, else that of the newest offer",
    }),
  ),
  paidPer: maybe(count("Pieces the price is for").meta({ description: "1 when absent" })),
  partState: maybe(choice("State", PART_STATES).meta({ description: "That of its newest offer when absent" })),
  partSource: maybe(line("Bought from", OWN_WORDS).meta({ description: "That of its line when the price is" })),
  partReason: maybe(
    line("Why that price", { ...OWN_WORDS, hint: "Where it is not what you know of the part." }).meta({
      description: "Wanted where `paidPrice` is not the one that is taken when absent",
    }),
  ),
  insteadOf: maybe(
    tick("In place of the part agreed").meta({ description: "Fitted in place of the part agreed, and reckoned against it" }),
  ),
  note: noteKey,
};

const PARTS = ["partKind", "partType", "ownPart"] as const;
const fields = z
  .strictObject({
    ...entryKeys,
    person: hand(WHO),
    workedOn: maybe(day("Day").meta({ description: "Today when absent" })),
    beyond: maybe(tick("More than the work needs", { hint: "Such as where one was bad." })).meta({
      description: "Without it more pieces than the work still needs are refused",
    }),
    override,
  })
  .superRefine((entry, context) => {
    const wrong = (name: string, ...path: string[]) => context.addIssue({ code: "custom", path, params: { name } });
    const has = (...keys: (keyof typeof entryKeys)[]) => keys.some((key) => entry[key] !== undefined);
    if (!has("minutes", "startedAt", "endedAt", ...PARTS)) wrong("entry empty", "minutes");
    if (entry.minutes === 0) wrong("minutes of nothing", "minutes");
    if (has("minutes") && has("startedAt", "endedAt")) wrong("time given twice", "minutes");
    else if (has("startedAt") !== has("endedAt")) wrong("end missing", has("startedAt") ? "endedAt" : "startedAt");
    if (PARTS.filter((key) => has(key)).length > 1) wrong("part given twice", has("ownPart") ? "ownPart" : "partType");
    if (has(...PARTS) && !has("item", "own")) wrong("work of the part missing", "item");
    if (has("own") && has("item", "offer")) wrong("work given twice", "own");
    if (has("ownHazards") && !has("own")) wrong("own work missing", "ownHazards");
  })
  .meta({ id: "LogEntry" });

export const logEntryKeys = {
  ...keptOnce,
  ...entryKeys,
  person,
  workedOn: z.iso.date(),
  parts: maybe(z.int()).meta({ description: "Selling price of parts, where the pieces are not told" }),
  overrideId: maybe(z.string()),
};
export const keptLogEntry = z.strictObject(logEntryKeys).meta({ id: "LogEntryRecord" });

export const logWork = act({
  name: "addLogEntry",
  title: "Log time, a part used, or both",
  fields,
  answer: keptLogEntry,
  decide: async (desk, { override: pass, person: named, insteadOf, workedOn, beyond, item, ...value }, on: OnJob) => {
    const job = await desk.job(on.job);
    if (!job?.latest) return NO_JOB;
    const who = handOf(desk, named, WHO, "/person");
    if ("refused" in who) return who;
    // Work in own words that was logged before is named by its words, which stay when that entry is withdrawn.
    const before = job.log().own?.find(({ id }) => id === item);
    const entry: LogEntryValue = {
      ...value,
      ...(before
        ? { own: before.own!.name, ...(before.assembly !== undefined && { assembly: before.assembly }) }
        : item !== undefined && { item }),
      ...(insteadOf && { insteadOf }),
      person: who.by,
      workedOn: workedOn ?? today(desk.now, job.settings.timeZone),
    };
    const { left, needed } = stillNeeded(job, entry);
    if (!beyond && has(entry) && (entry.partCount ?? 1) > left) {
      const detail = `Pieces: of the ${needed} that the work needs ${left} are still to come; say that more are meant, such as where one was bad.`;
      return wrongField("/partCount", "more than needed", detail);
    }
    return logged(desk, job, { id: desk.newId(), entry, override: pass });
  },
});

const has = ({ partKind, partType, ownPart }: LogEntryValue): boolean => (partKind ?? partType ?? ownPart) !== undefined;

/** Pieces that the work of an entry takes, and how many of them nobody logged; work that takes no part is not counted. */
export function stillNeeded(
  job: JobAsItStands,
  { item }: Pick<LogEntryValue, "item">,
): { readonly needed: number; readonly left: number } {
  const input = job.input();
  const work = input?.items.find(({ id }) => id === item);
  if (!work?.part) return { needed: Number.POSITIVE_INFINITY, left: Number.POSITIVE_INFINITY };
  const used = job.entries.reduce((sum, entry) => (entry.item === item && has(entry) ? sum + (entry.partCount ?? 1) : sum), 0);
  return { needed: work.count, left: Math.max(0, work.count - used) };
}

/** Work all of whose parts are in place: logged, or ticked off. */
export const partsFitted = (job: JobAsItStands): string[] =>
  (job.input()?.items ?? [])
    .filter(({ id, part, count: of }) => part && ((job.done[id] ?? 0) >= of || stillNeeded(job, { item: id }).left === 0))
    .map(({ id }) => id);

interface Logging {
  readonly id: string;
  readonly entry: LogEntryValue;
  readonly override?: OverrideValue | undefined;
  /** Id of the timer whose time this is. */
  readonly stops?: string;
}

/** Moments may have any zone; what was paid may be left to the line, or the newest offer. */
export async function logged(
  desk: Desk,
  job: JobAsItStands,
  { id, entry: told, override, stops }: Logging,
): Promise<Decided<LogEntry>> {
  const { db, at } = desk;
  const now = today(desk.now, job.settings.timeZone);
  if (told.workedOn > now) {
    const detail = `Day is ${dayText(told.workedOn, job.settings.locale)}, which is after today, ${dayText(now, job.settings.locale)}; give the day the work was done.`;
    return wrongField("/workedOn", "worked ahead", detail);
  }
  const input = job.input(told)!;
  const got = await priced(db, inUtc(told), input);
  if ("refused" in got) return got;
  const { kind, entry: value } = got;
  const entry = { ...value, id };
  const log = job.log(stops);
  const problems = entryProblems(job, entry, { log, override });
  const hard = problems.filter((problem) => !isOverridable(problem));
  if (hard.length === 0) hard.push(...(await elsewhere(desk, job, entry, input)));
  if (hard.length > 0) return refusedFor(hard, job);
  const passed = passedBy(job, entry, override ? entryProblems(job, entry, { log }) : problems);
  if (passed && !override) return refused(passed.is, { detail: passed.detail, overridable: true });

  const pass = passed && override && overrideOf(desk, job, override, passed);
  const record: LogEntry = { ...entry, jobId: job.id, at, ...(pass && { overrideId: pass.id }) };
  const part = partOf(record);
  return {
    answer: record,
    writes: [
      ...(pass ? [db.insert(overridesTable).values(pass)] : []),
      db.insert(workLogTable).values(record),
      ...(stops === undefined ? [] : [db.delete(timersTable).where(eq(timersTable.id, stops))]),
      ...(part && kind !== undefined
        ? [takeFromStock(db, { id: `used:${id}`, kind, pieces: part.count, jobId: job.id, by: entry.person, at })]
        : []),
      ...(await draftFinding(desk, job, job.found(entry))),
    ],
    trail: {
      job: job.id,
      head: job.head,
      events: [
        ...(pass
          ? [{ is: "limit overridden" as const, content: { by: pass.by, record: await tellingOf("overrides", pass) } }]
          : []),
        { is: "work logged", content: { person: entry.person, record: await tellingOf("work_log", record) } },
      ],
    },
  };
}

/** The engine's own sentence at a field of the entry. */
function problemAt(pointer: string, problem: { name: "own part without cost" | "price without reason"; where: string }) {
  return wrongField(pointer, problem.name, problemText({ ...problem, pointer }));
}

/** A moment that cannot be read stays as it is, for the log's check to name. */
export const utc = (moment: string): Instant =>
  readMoment(moment) === undefined ? moment : new Date(readMoment(moment)!).toISOString();

const inUtc = (entry: LogEntryValue): LogEntryValue => ({
  ...entry,
  ...(entry.startedAt !== undefined && { startedAt: utc(entry.startedAt) }),
  ...(entry.endedAt !== undefined && { endedAt: utc(entry.endedAt) }),
});

/**
 * With what was paid. A part of the catalogue that no revision names is told as its type, or by its name where it stands in for another,
 * so that the log can be closed out; it leaves the shelf as itself (`kind`).
 */
async function priced(
  db: Database,
  entry: LogEntryValue,
  input: EstimateInput,
): Promise<{ readonly entry: LogEntryValue; readonly kind?: string } | ReturnType<typeof wrongField>> {
  const { partKind, ownPart, ...rest } = entry;
  if (ownPart !== undefined) {
    const { paidPrice, paidPer = 1, partCount = 1, partState = "new" } = entry;
    if (paidPrice === undefined) return problemAt("/paidPrice", { name: "own part without cost", where: ownPart });
    return { entry: { ...entry, paidPrice, paidPer, partCount, partState } };
  }
  if (partKind === undefined && entry.partType === undefined) return { entry };
  const { paidPrice, paidPer = 1 } = entry;
  const { kind: kept, offers } = partKind === undefined ? { offers: [] } : await kindOffered(db, partKind);
  const named = (input.kinds ?? []).find(({ id }) => id === partKind);
  const { state, source: from, ...usual } = usuallyGot(entry, kept ?? named, input, offers);
  const source = entry.partSource ?? from;
  const paid =
    paidPrice === undefined ? { ...usual, ...(source !== undefined && { partSource: source }) } : { paidPrice, paidPer };
  const whole = { ...paid, partCount: entry.partCount ?? 1, partState: entry.partState ?? state };
  const known = kept ?? named ?? input.rateBook.partTypes.find(({ id }) => id === entry.partType);
  const another = paidPrice !== undefined && paidPrice * usual.paidPer !== usual.paidPrice * paidPer;
  if (known && another && entry.partReason === undefined)
    return problemAt("/partReason", { name: "price without reason", where: known.name });
  const note = [kept?.name, entry.note].filter(Boolean).join(": ");
  return {
    entry:
      kept && !named
        ? { ...rest, ...whole, ...(entry.insteadOf ? { ownPart: kept.name } : { partType: kept.type, note }) }
        : { ...entry, ...whole },
    ...(kept && { kind: kept.id }),
  };
}

/**
 * What a piece cost, its state and source, where nobody says: at the price its line has of its own, as its newest offer, or as its type
 * usually does. Nothing is known of a part that is unknown.
 */
function usuallyGot(
  { item, partKind, partType, insteadOf, workedOn }: LogEntryValue,
  kind: Pick<PartKind, "type"> | undefined,
  input: EstimateInput,
  known: readonly Offer[],
): Required<Pick<LogEntryValue, "paidPrice" | "paidPer">> & Pick<Offer, "state"> & Partial<Pick<Offer, "source">> {
  const { offers = [], rateBook } = input;
  const type = partType ?? kind?.type;
  const { part, partPrice: own } = (!insteadOf && input.items.find(({ id }) => id === item)) || {};
  const isOfLine = part && ("kind" in part ? part.kind === partKind : "type" in part && part.type === type);
  const usable = [...known, ...offers].flatMap((offer) =>
    offer.kind === partKind && offer.on <= workedOn ? (landed(offer, input) ?? []) : [],
  );
  const newest = usable.reduce<Offer | undefined>((last, offer) => (last && last.on >= offer.on ? last : offer), undefined);
  // A line of the type alone says nothing of a part that is known by its offers.
  if (own && isOfLine && ("kind" in part || !newest))
    return {
      paidPrice: own.cost,
      paidPer: 1,
      state: newest?.state ?? "new",
      ...(own.source !== undefined && { source: own.source }),
    };
  if (newest) return { paidPrice: newest.price, paidPer: newest.packSize, state: newest.state };
  return { paidPrice: rateBook.partTypes.find(({ id }) => id === type)?.typicalCost ?? 0, paidPer: 1, state: "new" };
}
