/**
 * The work of a job as the bench shows it, by assembly in the order they come off, tests and soak last; and what it still needs: parts,
 * by a number that stays, and readings.
 */
import { asLogged, partOf as partUsed, workOf } from "../../acts/asWork.js";
import type { JobAsItStands } from "../../acts/job.js";
import { readBook } from "../../estimating/book.js";
import type { EstimateInput, WorkItem } from "../../estimating/input.js";
import { HAZARDS } from "../../estimating/lists.js";
import { operationIdOf, partOf } from "../../estimating/resolve.js";
import type { Sheet } from "../../estimating/sheet.js";
import { closure, readMap } from "../../estimating/teardown/map.js";
import type { Need, WantedReading, WorkGroup, WorkRow } from "../../pages/bench/view.js";
import { unagreedText } from "../../wording/agreement.js";
import { workTitle } from "../../wording/line.js";
import { logRow } from "./logRows.js";

const isOnTheBench = ({ count, certainty }: WorkItem): boolean => count > 0 && (certainty.is !== "optional" || certainty.chosen);

/** What is agreed as it was agreed, and what came since, blocked. An option that was left is not shown. */
function benchItems(job: JobAsItStands, input: EstimateInput) {
  const why = new Map(job.unagreed().map((each) => [each.id, each.why]));
  const chosen = new Map((job.agreed()?.input.items ?? []).map((item) => [item.id, item]));
  return input.items
    .map((item) => ({ item: chosen.get(item.id) && !why.has(item.id) ? chosen.get(item.id)! : item, why: why.get(item.id) }))
    .filter(({ item, why }) => isOnTheBench(item) && why !== "option not chosen");
}

export function worksOf(job: JobAsItStands, input: EstimateInput, sheet: Sheet) {
  const { entries, done } = job;
  const spent = new Map<string, number>();
  for (const entry of entries) {
    const work = workOf(entry);
    if (work.is === "item") spent.set(work.id, (spent.get(work.id) ?? 0) + (asLogged(entry, input).minutes ?? 0));
  }
  const operations = new Map(input.rateBook.operations.map(({ id, sort }) => [id, sort]));
  const hazards = new Map(sheet.access.removal.map(({ id, hazards: list }) => [id, list]));
  const groups = new Map<string | undefined, WorkRow[]>();
  const after: WorkRow[] = [];
  const first: WorkRow[] = [];
  const foundIn = job.foundIn();
  for (const { item, why } of benchItems(job, input)) {
    const { assembly, ...bare } = item;
    const sort = operations.get(operationIdOf(item));
    const last = sort === "test" || sort === "soak";
    const row: WorkRow = {
      id: item.id,
      title: workTitle(last ? item : bare, input),
      count: item.count,
      done: Math.min(done[item.id] ?? 0, item.count),
      minutes: spent.get(item.id) ?? 0,
      ifFound: item.certainty.is === "if found",
      ...(item.reason && { reason: item.reason }),
      ...(foundIn.has(item.id) && { foundIn: foundIn.get(item.id)! }),
      ...(sheet.memory?.cells.includes(item.id) && { afterSaving: true }),
      ...(why && { blocked: unagreedText(why) }),
    };
    if (sheet.memory?.saved.includes(item.id)) first.push(row);
    else if (last) after.push(row);
    else groups.set(assembly, [...(groups.get(assembly) ?? []), row]);
  }
  const order = sheet.access.removal.map(({ id }) => id);
  const place = (id: string | undefined) =>
    id === undefined ? order.length + 1 : order.includes(id) ? order.indexOf(id) : order.length;
  return {
    ...{ first, after },
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

/** Assemblies of the sheet that no agreed work needs, nor any that was logged all the same. */
export function leaveIn(sheet: Sheet, job: JobAsItStands): ReadonlySet<string> {
  const [agreed, input] = [job.agreed(), job.input()];
  const out = new Set(job.unagreed().map(({ id }) => id));
  if (!agreed || !input || out.size === 0) return new Set();
  const map = readMap(input.map);
  const logged = new Set(job.entries.map(({ item }) => item));
  const worked = input.items.filter((item) => isOnTheBench(item) && (!out.has(item.id) || logged.has(item.id)));
  const places = closure(
    map,
    worked.flatMap(({ assembly }) => map.at.get(assembly ?? "") ?? []),
  );
  const opens = new Set([...[...places].map((at) => map.assemblies[at]!), ...agreed.sheet.access.removal].map(({ id }) => id));
  return new Set(sheet.access.removal.flatMap(({ id }) => (opens.has(id) ? [] : [id])));
}

/** `when`: a moment as the shop writes it. */
export function needsOf(job: JobAsItStands, input: EstimateInput, when: (iso: string) => string): Need[] {
  const book = readBook(input);
  const items = benchItems(job, input).flatMap(({ item, why }) => {
    const part = partOf(item);
    return part ? [{ item, part, why }] : [];
  });
  return items.map(({ item, part, why }, index): Need => {
    const kind = "kind" in part ? book.kinds.get(part.kind)?.is : undefined;
    const type = "kind" in part ? (kind?.type ?? "") : part.type;
    const uses = job.entries.filter((entry) => entry.item === item.id && partUsed(entry));
    const last = uses.at(-1);
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
      used: uses.reduce((sum, { partCount = 1 }) => sum + partCount, 0),
      blocked: why !== undefined || job.agreed() === undefined,
      ...(last && { last: { id: last.id, text: `${logRow(last, input, [], when).part}: ${last.person}, ${when(last.at)}` } }),
    };
  });
}

/** With the dangers of work in own words that was logged. */
export const cautionsOf = ({ hazards }: Sheet, job: JobAsItStands): Sheet["hazards"] =>
  HAZARDS.flatMap((hazard) => {
    const own = (job.log().own ?? []).flatMap(({ own: said }) => (said?.hazards?.includes(hazard) ? [said.name] : []));
    const from = [...(hazards.find((each) => each.hazard === hazard)?.from ?? []), ...own];
    return from.length > 0 ? [{ hazard, from }] : [];
  });

/** A cell's rated voltage, and the working voltage noted with the part that is fitted. */
export function wantedOf({ items, kinds = [], rateBook, map }: EstimateInput, taken: readonly string[]): WantedReading[] {
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
