/** Work items: known ids, whole counts, a part where one is replaced, certainties that agree within a group. */
import type { Book, Index } from "../book.js";
import type { Assembly, EstimateInput, WorkItem } from "../input.js";
import type { Problem } from "../problems.js";
import { count, threePoint } from "./figures.js";
import { repeated, unknown } from "./ids.js";
import { pointer } from "./pointer.js";
import { whereItem } from "./where.js";

export function checkItems({ items }: EstimateInput, book: Book, assemblies: Index<Assembly>): Problem[] {
  return [
    ...items.flatMap((item, at) => checkItem(item, at, book, assemblies)),
    ...repeated(
      items,
      ({ id }) => id,
      "work item",
      (at) => pointer("items", at, "id"),
    ),
    ...checkGroups(items),
  ];
}

function checkItem(item: WorkItem, at: number, book: Book, assemblies: Index<Assembly>): Problem[] {
  const to = (...tokens: string[]) => pointer("items", at, ...tokens);
  const assembly = item.assembly === undefined ? undefined : assemblies.get(item.assembly)?.is;
  const where = whereItem(item, assembly, book);
  const operation = book.operations.get(item.operation)?.is;
  const { certainty, part } = item;
  return [
    ...(item.assembly === undefined ? [] : unknown("assembly unknown", item.assembly, assemblies, where, to("assembly"))),
    ...unknown("operation unknown", item.operation, book.operations, where, to("operation")),
    ...count(item.count, where, to("count")),
    ...(part ? checkPart(part, where, to("part"), book) : []),
    ...(operation?.sort === "replacement" && !part && !item.minutes
      ? [{ name: "part missing", where, pointer: to("part") } as const]
      : []),
    ...(item.minutes ? threePoint(item.minutes, where, to("minutes")) : []),
    ...(certainty.is === "if found" && !(certainty.probability >= 0 && certainty.probability <= 1)
      ? [
          {
            name: "probability out of range",
            where,
            value: certainty.probability,
            pointer: to("certainty", "probability"),
          } as const,
        ]
      : []),
  ];
}

function checkPart(part: NonNullable<WorkItem["part"]>, where: string, at: string, { kinds, partTypes }: Book): Problem[] {
  return "kind" in part
    ? unknown("part kind unknown", part.kind, kinds, where, `${at}/kind`)
    : unknown("part type unknown", part.type, partTypes, where, `${at}/type`);
}

/** Items of one group turn up together, or are chosen together: the later one that differs is named. */
function checkGroups(items: readonly WorkItem[]): Problem[] {
  const first = new Map<string, number | boolean>();
  return items.flatMap(({ certainty }, at): Problem[] => {
    if (certainty.is === "planned" || certainty.group === undefined) return [];
    const found = certainty.is === "if found";
    const value = found ? certainty.probability : certainty.chosen;
    const key = `${certainty.is} ${certainty.group}`;
    const before = first.get(key);
    if (before === undefined) first.set(key, value);
    if (before === undefined || Object.is(before, value)) return [];
    const field = found ? "probability" : "chosen";
    return [
      {
        name: "group differs",
        group: certainty.group,
        what: found ? "probability" : "choice",
        pointer: pointer("items", at, "certainty", field),
      },
    ];
  });
}
