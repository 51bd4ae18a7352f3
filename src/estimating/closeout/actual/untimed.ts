/**
 * Agreed work that nobody timed. Where it was done all the same it is reckoned with the time and the parts allowed for it, so that it
 * is neither earned nor lost; the log itself stays as it was, and nothing is learnt from it.
 */
import { same } from "../../agreement/canonical.js";
import type { EstimateInput, WorkItem } from "../../input.js";
import { behindOf, type KnownPart, partOf } from "../../resolve.js";
import type { Line, PartResult } from "../../sheet.js";
import { agreedOf, type Charged, type ChargedRevision, type JobDone, type Untimed } from "../jobDone.js";
import type { PartUsed, TimeEntry, WorkLog } from "../log/workLog.js";

/** Pieces of work that were to be done, each with what is behind it, on which no time is logged. */
export function untimedWork(
  { items }: Pick<EstimateInput, "items">,
  { time, parts }: WorkLog,
  found: readonly string[],
): readonly { readonly item: WorkItem; readonly ids: readonly string[]; readonly partsLogged: boolean }[] {
  const timed = new Set(time.flatMap(({ work }) => (work.is === "item" ? [work.id] : [])));
  const used = new Set(parts.map(({ item }) => item));
  const charged = ({ count, certainty: is, id }: WorkItem) =>
    count > 0 && (is.is === "planned" || (is.is === "optional" ? is.chosen : found.includes(is.group ?? id)));
  return items
    .filter((item) => behindOf(item) === undefined && charged(item))
    .map((item) => {
      const ids = [item.id, ...items.filter((each) => behindOf(each) === item.id).map(({ id }) => id)];
      return { item, ids, partsLogged: ids.some((id) => used.has(id)) };
    })
    .filter(({ ids }) => !ids.some((id) => timed.has(id)));
}

/** Work that was timed and has parts, none of which is logged. */
export function partsUnlogged(input: Pick<EstimateInput, "items">, log: WorkLog, found: readonly string[]): readonly WorkItem[] {
  const open = new Set(untimedWork(input, log, found).flatMap(({ ids }) => ids));
  const used = new Set(log.parts.map(({ item }) => item));
  return input.items.filter((item) => {
    const { id, count, certainty: is, part } = item;
    const charged = count > 0 && (is.is === "planned" || (is.is === "optional" ? is.chosen : found.includes(is.group ?? id)));
    return charged && part !== undefined && partOf(item) !== undefined && !open.has(id) && !used.has(id);
  });
}

/** What was worked and used: the log, what nobody timed as it was allowed, and parts nobody logged as they were planned. */
export function workedIn(job: JobDone, log: WorkLog, { input, sheet }: ChargedRevision): WorkLog {
  const parts = [...agreedOf(job).sheet.parts, ...((job.foundParts && sheet.parts) || [])];
  const allowed = (item: WorkItem) => partsAllowed(item, parts, job.linePrices ? input.items : []);
  const timed = job.untimed ? withUntimed(log, job.untimed, input, sheet, allowed) : log;
  const unlogged = new Set(job.unlogged);
  const planned = input.items.filter(({ id }) => unlogged.has(id)).flatMap(allowed);
  return planned.length === 0 ? timed : { ...timed, parts: [...timed.parts, ...planned] };
}

/** Opening goes with it where none was timed. `allowed`: parts as they were. */
function withUntimed(
  log: WorkLog,
  untimed: Untimed,
  { items }: Pick<EstimateInput, "items">,
  { lines, behind = [] }: Charged,
  allowed: (item: WorkItem) => readonly PartUsed[],
): WorkLog {
  const done = items.filter(({ id }) => Object.hasOwn(untimed, id));
  if (done.length === 0) return log;
  const all = [...lines, ...behind];
  const byId = new Map(all.map((line) => [line.id, line]));
  const minutesOf = (line: Line | undefined) => line?.minutes ?? 0;
  const entry = (id: string, work: TimeEntry["work"], minutes: number): TimeEntry[] =>
    minutes > 0 ? [{ id: `untimed ${id}`, work, person: "", minutes }] : [];
  const used = new Set(log.parts.map(({ item }) => item));
  const opening = log.time.some(({ work }) => work.is === "access") ? [] : all.filter(({ sort }) => sort === "access");
  const milli = opening.reduce((sum, line) => sum + Math.round(minutesOf(line) * 1000), 0);
  return {
    time: [
      ...log.time,
      ...done.flatMap(({ id }) => entry(id, { is: "item", id }, minutesOf(byId.get(`labour:${id}`)))),
      ...entry("access", { is: "access" }, milli / 1000),
    ],
    parts: [...log.parts, ...done.filter(({ id }) => !used.has(id)).flatMap(allowed)],
  };
}

/** `items`: lines whose own prices are told apart. */
function partsAllowed(item: WorkItem, parts: readonly PartResult[], items: readonly WorkItem[]): PartUsed[] {
  const part = partOf(item);
  const all = part ? parts.filter((each) => isOf(part, each)) : [];
  const own = items.flatMap(({ part: other, partPrice }) => (same(other, item.part) ? (partPrice?.cost ?? []) : []));
  const bought = all.find(({ cost, charged }) => !own.some((price) => price * charged === cost)) ?? all[0];
  if (!part || !bought || bought.charged <= 0 || item.count <= 0) return [];
  const paid =
    items.length > 0 && item.partPrice ? { price: item.partPrice.cost, per: 1 } : { price: bought.cost, per: bought.charged };
  return [{ id: `untimed part ${item.id}`, item: item.id, part, count: item.count, paid, state: "new" }];
}

const isOf = (part: KnownPart, { type, kind }: PartResult): boolean =>
  "kind" in part ? kind === part.kind : kind === undefined && type === part.type;
