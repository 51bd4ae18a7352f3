/** What each part of a sheet rests on: plain counts, named assemblies, or a drawn teardown map. */
import type { Priced, Workings } from "../pricing/workings.js";
import type { Detail, Sheet } from "../sheet.js";

export function detailOf({ map }: Workings, { opened, visit, items }: Priced): Sheet["detail"] {
  const level = (place: number): Detail => (map.assemblies[place]!.access.by === "standard" ? "grid" : "map");
  const counted = visit.boards.some(({ count }) => count > 0);
  return {
    access: only([...(counted ? ["counts" as const] : []), ...opened.map(level)]),
    work: only(items.map(({ place }) => (place === undefined ? "counts" : level(place)))),
  };
}

function only(levels: readonly Detail[]): Detail {
  const different = new Set(levels);
  return different.size > 1 ? "mixed" : (levels[0] ?? "none");
}
