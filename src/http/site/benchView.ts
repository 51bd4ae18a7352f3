/** What the bench page shows, read from the records. */
import type { Context } from "hono";
import { readBook } from "../../estimating/book.js";
import { wordingFor } from "../../estimating/closeout/log/where.js";
import { estimate as compute } from "../../estimating/estimate.js";
import type { EstimateInput, WorkItem } from "../../estimating/input.js";
import type { Sheet } from "../../estimating/sheet.js";
import {
  type BenchView,
  type Need,
  type ReadingRow,
  type RunningTimer,
  type WantedReading,
  type WorkGroup,
  type WorkRow,
  workValue,
} from "../../pages/bench/view.js";
import { capital } from "../../pages/revise/smallForm.js";
import { asLogged, partOf, workOf } from "../../records/asWork.js";
import { doneCounts } from "../../records/benchLog.js";
import { closedOn } from "../../records/closed.js";
import { jobs } from "../../records/jobs.js";
import { readingsOf } from "../../records/readings.js";
import { type Standing, standingOf } from "../../records/standing.js";
import { type Timer, timerBy, timersOf } from "../../records/timers.js";
import { entriesOf, type LogEntry } from "../../records/workLog.js";
import { clock, plainNumber, unagreedText, workTitle } from "../../wording/index.js";
import type { AppEnv } from "../bindings.js";
import { benchScriptFor, frameFor } from "./frame.js";
import { type JobSubject, jobSubject, lastHand } from "./jobSubject.js";
import { agreedProps } from "./standing.js";

export interface OpenBench {
  readonly subject: JobSubject;
  readonly standing: Standing & { readonly input: EstimateInput };
  /** Who works. */
  readonly by: string;
  readonly revision: string;
  readonly sheet: Sheet;
  readonly entries: readonly LogEntry[];
  readonly needs: readonly Need[];
}

/** Undefined where there is no job, or nothing to work by. */
export async function openBench(c: Context<AppEnv>, id: string, named?: string): Promise<OpenBench | undefined> {
  const subject = await jobSubject(c, id);
  const standing = subject && (await standingOf(c.var.db, id));
  const latest = subject?.revisions.at(-1);
  const sheet = latest?.sheet ?? standing?.agreed?.sheet;
  if (!subject || !standing?.input || !latest || !sheet) return undefined;
  const entries = await entriesOf(c.var.db, id);
  const by = (named ?? c.var.staff?.name ?? entries.at(-1)?.person ?? lastHand(subject)).trim();
  const open = { subject, standing: { ...standing, input: standing.input }, by, revision: latest.id, sheet, entries };
  return { ...open, needs: needsOf(open.standing, entries) };
}

export type BenchShown = Omit<BenchView, "fields" | "errors" | "token" | "say" | "refusal">;

export async function benchView(c: Context<AppEnv>, open: OpenBench): Promise<BenchShown> {
  const { subject, standing, by, revision, sheet, entries, needs } = open;
  const { db } = c.var;
  const { job, head, settings, tongue } = subject;
  const { input, agreed } = standing;
  const [done, readings, mine, timers, closed] = await Promise.all([
    doneCounts(db, job.id),
    readingsOf(db, job.id),
    timerBy(db, by),
    timersOf(db, job.id),
    closedOn(db, job.id),
  ]);
  const at = (iso: string) => clock(iso, tongue.locale, settings.timeZone);
  const timer = mine && (await running(c, mine, open, at));
  const others = timers.filter(({ person }) => person !== by);
  return {
    frame: frameFor(c, settings.name),
    script: benchScriptFor(c),
    job: head,
    at: at(c.var.clock().toISOString()),
    ...{ tongue, input, sheet, revision, by, needs },
    ...(closed !== undefined && { closedOn: closed }),
    ...(agreed && { agreed: agreedProps(agreed) }),
    ...(timer && { timer }),
    others: await Promise.all(others.map((each) => running(c, each, open, at))),
    ...worksOf(open, done),
    leaveIn: leaveIn(sheet, standing),
    readings: readings.map((reading): ReadingRow => {
      const said = (figure: number) => `${plainNumber(figure, tongue.locale)} ${reading.unit}`;
      const { expected, found, label, person, assembly } = reading;
      const where = input.map?.assemblies.find(({ id }) => id === assembly)?.name;
      return {
        ...{ label, person, found: said(found), at: at(reading.at) },
        ...(where !== undefined && { where }),
        ...(expected !== undefined && { expected: said(expected), off: said(Math.round((found - expected) * 1000) / 1000) }),
      };
    }),
    wanted: wantedOf(
      input,
      readings.map(({ label }) => label),
    ),
    recent: entries
      .slice(-5)
      .reverse()
      .map((entry) => rowOf(entry, input)),
  };
}

async function running(
  c: Context<AppEnv>,
  timer: Timer,
  { subject, standing }: OpenBench,
  at: (iso: string) => string,
): Promise<RunningTimer> {
  const here = timer.jobId === subject.job.id;
  const input = here ? standing.input : (await standingOf(c.var.db, timer.jobId))?.input;
  const job = here ? undefined : await jobs.find(c.var.db, timer.jobId);
  return {
    person: timer.person,
    title: input ? titleOf(timer, input) : "work",
    startedAt: timer.startedAt,
    since: at(timer.startedAt),
    work: workValue(timer),
    ...(job && { elsewhere: { id: job.id, number: job.number } }),
  };
}

const titleOf = (timer: Parameters<typeof workOf>[0], input: EstimateInput): string => {
  const item = input.items.find(({ id }) => id === timer.item);
  return item ? workTitle(item, input) : capital(wordingFor(input).work(workOf(timer)));
};

function rowOf(entry: LogEntry, input: EstimateInput) {
  const used = partOf(entry);
  const { minutes, parts } = asLogged(entry, input);
  return {
    workedOn: entry.workedOn,
    person: entry.person,
    what: titleOf(entry, input),
    ...(used && { part: `${used.count} × ${wordingFor(input).part(used.part)}` }),
    ...(minutes !== undefined && { minutes }),
    ...(parts !== undefined && { parts }),
  };
}

const isOnTheBench = ({ count, certainty }: WorkItem): boolean => count > 0 && (certainty.is !== "optional" || certainty.chosen);

/** What is agreed as it was agreed, and what came since, blocked. An option that was left is not shown. */
export function benchItems({ input, agreed, unagreed }: Standing & { readonly input: EstimateInput }) {
  const why = new Map(unagreed.map((each) => [each.id, each.why]));
  const chosen = new Map((agreed?.input.items ?? []).map((item) => [item.id, item]));
  return input.items
    .map((item) => ({ item: chosen.get(item.id) && !why.has(item.id) ? chosen.get(item.id)! : item, why: why.get(item.id) }))
    .filter(({ item, why }) => isOnTheBench(item) && why !== "option not chosen");
}

function worksOf({ standing, sheet, entries }: OpenBench, done: Readonly<Record<string, number>>) {
  const { input } = standing;
  const spent = new Map<string, number>();
  for (const entry of entries)
    if (entry.item !== undefined) spent.set(entry.item, (spent.get(entry.item) ?? 0) + (asLogged(entry, input).minutes ?? 0));
  const operations = new Map(input.rateBook.operations.map(({ id, sort }) => [id, sort]));
  const hazards = new Map(sheet.access.removal.map(({ id, hazards: list }) => [id, list]));
  const groups = new Map<string | undefined, WorkRow[]>();
  const after: WorkRow[] = [];
  for (const { item, why } of benchItems(standing)) {
    const { assembly, ...bare } = item;
    const sort = operations.get(item.operation);
    const last = sort === "test" || sort === "soak";
    const row: WorkRow = {
      id: item.id,
      title: workTitle(last ? item : bare, input),
      count: item.count,
      done: Math.min(done[item.id] ?? 0, item.count),
      minutes: spent.get(item.id) ?? 0,
      ifFound: item.certainty.is === "if found",
      ...(item.reason && { reason: item.reason }),
      ...(why && { blocked: unagreedText(why) }),
    };
    if (last) after.push(row);
    else groups.set(assembly, [...(groups.get(assembly) ?? []), row]);
  }
  const order = sheet.access.removal.map(({ id }) => id);
  const place = (id: string | undefined) =>
    id === undefined ? order.length + 1 : order.includes(id) ? order.indexOf(id) : order.length;
  return {
    after,
    groups: [...groups]
      .sort(([a], [b]) => place(a) - place(b))
      .map(
        ([id, works]): WorkGroup => ({
          name: input.map?.assemblies.find((each) => each.id === id)?.name ?? "The unit as a whole",
          ...(id !== undefined && { assembly: id }),
          hazards: (id !== undefined && hazards.get(id)) || [],
          works,
        }),
      ),
  };
}

/** Assemblies of the sheet that no agreed work needs. */
function leaveIn(sheet: Sheet, { agreed, unagreed, input }: Standing & { readonly input: EstimateInput }): ReadonlySet<string> {
  if (!agreed || unagreed.length === 0) return new Set();
  const out = new Set(unagreed.map(({ id }) => id));
  const without = compute({ ...input, items: input.items.filter(({ id }) => !out.has(id)) });
  const opens = new Set(
    [...(without.ok ? without.sheet.access.removal : []), ...agreed.sheet.access.removal].map(({ id }) => id),
  );
  return new Set(sheet.access.removal.flatMap(({ id }) => (opens.has(id) ? [] : [id])));
}

function needsOf(standing: OpenBench["standing"], entries: readonly LogEntry[]): Need[] {
  const { input } = standing;
  const book = readBook(input);
  const items = benchItems(standing).flatMap(({ item, why }) => (item.part ? [{ item, part: item.part, why }] : []));
  return items.map(({ item, part, why }, index): Need => {
    const kind = "kind" in part ? book.kinds.get(part.kind)?.is : undefined;
    const type = "kind" in part ? (kind?.type ?? "") : part.type;
    const used = entries.reduce((sum, { item: id, partCount = 0 }) => (id === item.id ? sum + partCount : sum), 0);
    const { part: _, ...bare } = item;
    return {
      number: index + 1,
      item: item.id,
      work: workTitle(bare, input),
      ...("kind" in part && { kind: part.kind }),
      type,
      name: kind?.name ?? book.partTypes.get(type)?.is.name ?? type,
      ...(kind?.value !== undefined && { value: kind.value }),
      needed: item.count,
      used: Math.min(used, item.count),
      blocked: why !== undefined || standing.agreed === undefined,
    };
  });
}

/** A cell's rated voltage, and the working voltage noted with the part that is fitted. */
function wantedOf({ items, kinds = [], rateBook, map }: EstimateInput, taken: readonly string[]): WantedReading[] {
  const named = (id: string | undefined) => map?.assemblies.find((each) => each.id === id)?.name;
  const wanted = items.flatMap((item): WantedReading[] => {
    if (item.count <= 0) return [];
    const { part, original, assembly } = item;
    const kind = part && "kind" in part ? kinds.find(({ id }) => id === part.kind) : undefined;
    const type = kind?.type ?? (part && "type" in part ? part.type : undefined);
    const isCell = rateBook.partTypes.find(({ id }) => id === type)?.family === "cell";
    const at = (what: string) => [what, named(assembly)].filter(Boolean).join(", ");
    const on = assembly === undefined ? {} : { assembly };
    return [
      ...(isCell && kind?.ratedVolts !== undefined
        ? [{ label: at("cell voltage"), expected: kind.ratedVolts, unit: "V", ...on }]
        : []),
      ...(original?.workingVolts === undefined
        ? []
        : [{ label: at("working voltage"), expected: original.workingVolts, unit: "V", ...on }]),
    ];
  });
  return wanted.filter(
    ({ label }, index) => !taken.includes(label) && wanted.findIndex((each) => each.label === label) === index,
  );
}
