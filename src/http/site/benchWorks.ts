/** The work of a job as the bench shows it: by assembly in the order they come off, tests and soak last. */
import { asLogged } from "../../acts/asWork.js";
import type { JobAsItStands } from "../../acts/job.js";
import type { EstimateInput, WorkItem } from "../../estimating/input.js";
import type { Sheet } from "../../estimating/sheet.js";
import { closure, readMap } from "../../estimating/teardown/map.js";
import type { WorkGroup, WorkRow } from "../../pages/bench/view.js";
import { unagreedText } from "../../wording/agreement.js";
import { workTitle } from "../../wording/line.js";
import type { OpenBench } from "./benchView.js";

const isOnTheBench = ({ count, certainty }: WorkItem): boolean => count > 0 && (certainty.is !== "optional" || certainty.chosen);

/** What is agreed as it was agreed, and what came since, blocked. An option that was left is not shown. */
export function benchItems(job: JobAsItStands, input: EstimateInput) {
  const why = new Map(job.unagreed().map((each) => [each.id, each.why]));
  const chosen = new Map((job.agreed()?.input.items ?? []).map((item) => [item.id, item]));
  return input.items
    .map((item) => ({ item: chosen.get(item.id) && !why.has(item.id) ? chosen.get(item.id)! : item, why: why.get(item.id) }))
    .filter(({ item, why }) => isOnTheBench(item) && why !== "option not chosen");
}

export function worksOf({ subject: { stands }, input, sheet }: OpenBench) {
  const { entries, done } = stands;
  const spent = new Map<string, number>();
  for (const entry of entries)
    if (entry.item !== undefined) spent.set(entry.item, (spent.get(entry.item) ?? 0) + (asLogged(entry, input).minutes ?? 0));
  const operations = new Map(input.rateBook.operations.map(({ id, sort }) => [id, sort]));
  const hazards = new Map(sheet.access.removal.map(({ id, hazards: list }) => [id, list]));
  const groups = new Map<string | undefined, WorkRow[]>();
  const after: WorkRow[] = [];
  for (const { item, why } of benchItems(stands, input)) {
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
export function leaveIn(sheet: Sheet, job: JobAsItStands): ReadonlySet<string> {
  const [agreed, input] = [job.agreed(), job.input()];
  const out = new Set(job.unagreed().map(({ id }) => id));
  if (!agreed || !input || out.size === 0) return new Set();
  const map = readMap(input.map);
  const worked = input.items.filter((item) => isOnTheBench(item) && !out.has(item.id));
  const places = closure(
    map,
    worked.flatMap(({ assembly }) => map.at.get(assembly ?? "") ?? []),
  );
  const opens = new Set([...[...places].map((at) => map.assemblies[at]!), ...agreed.sheet.access.removal].map(({ id }) => id));
  return new Set(sheet.access.removal.flatMap(({ id }) => (opens.has(id) ? [] : [id])));
}
