/** What the work of a job still needs: parts, by a number that stays, and readings. */

import type { JobAsItStands } from "../../acts/job.js";
import { readBook } from "../../estimating/book.js";
import type { EstimateInput } from "../../estimating/input.js";
import type { Need, WantedReading } from "../../pages/bench/view.js";
import { workTitle } from "../../wording/line.js";
import { benchItems } from "./benchWorks.js";

export function needsOf(job: JobAsItStands, input: EstimateInput): Need[] {
  const book = readBook(input);
  const items = benchItems(job, input).flatMap(({ item, why }) => (item.part ? [{ item, part: item.part, why }] : []));
  return items.map(({ item, part, why }, index): Need => {
    const kind = "kind" in part ? book.kinds.get(part.kind)?.is : undefined;
    const type = "kind" in part ? (kind?.type ?? "") : part.type;
    const used = job.entries.reduce((sum, { item: id, partCount = 0 }) => (id === item.id ? sum + partCount : sum), 0);
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
      blocked: why !== undefined || job.agreed() === undefined,
    };
  });
}

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
