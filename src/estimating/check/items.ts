/** Work items: known ids, whole counts, a part where one is replaced, certainties that agree within a group. Counted boards. */
import type { Book, Index } from "../book.js";
import type { Assembly, Certainty, EstimateInput, WorkItem } from "../input.js";
import { LIMITS, type Problem } from "../problems.js";
import { operationIdOf } from "../resolve.js";
import { count, ifGiven, NONE, repeated, threePoint, unknown } from "./figures.js";
import { checkStandard } from "./map.js";
import { checkOwnPart, checkPartPrice, checkSaid } from "./own.js";
import { found, inside, pointerTo, type Spot, spot, whereItem } from "./spot.js";

export function checkItems({ items }: EstimateInput, book: Book, assemblies: Index<Assembly>): Problem[] {
  const spots = items.map((item, at) => spot(() => whereItem(item, assemblies.get(item.assembly ?? "")?.is, book), "items", at));
  return [
    ...items.flatMap((item, at) => checkItem(item, spots[at]!, book, assemblies)),
    ...repeated(
      items,
      ({ id }) => id,
      "work item",
      (at) => inside(spots[at]!, ["id"]),
    ),
    ...checkGroups(items, spots),
  ];
}

function checkItem(item: WorkItem, here: Spot, book: Book, assemblies: Index<Assembly>): readonly Problem[] {
  const to = (...tokens: string[]) => inside(here, tokens);
  const operation = book.operations.get(operationIdOf(item))?.is;
  const { assembly, part, minutes, certainty } = item;
  const replaces = operation?.sort === "replacement" && !minutes;
  const partMissing = replaces && !part;
  const untimed = replaces && part && "own" in part && part.own.type === undefined;
  return [
    ...ifGiven(assembly, (id) => unknown("assembly unknown", id, assemblies, to("assembly"))),
    ...checkSaid(item, here, book),
    ...count(item.count, to("count")),
    ...ifGiven(part, (given) => checkPart(given, to("part"), book)),
    ...(partMissing ? [{ name: "part missing", ...found(to("part")) } as const] : NONE),
    ...(untimed ? [{ name: "own part without time", ...found(to("part", "own", "type")) } as const] : NONE),
    ...checkPartPrice(item, here),
    ...ifGiven(minutes, (own) => threePoint(own, to("minutes"))),
    ...checkCertainty(certainty, to("certainty", "probability")),
  ];
}

function checkPart(part: NonNullable<WorkItem["part"]>, at: Spot, book: Book): readonly Problem[] {
  if ("own" in part) return checkOwnPart(part.own, inside(at, ["own"]), book);
  return "kind" in part
    ? unknown("part kind unknown", part.kind, book.kinds, inside(at, ["kind"]))
    : unknown("part type unknown", part.type, book.partTypes, inside(at, ["type"]));
}

function checkCertainty(certainty: Certainty, at: Spot): readonly Problem[] {
  if (certainty.is !== "if found") return NONE;
  const { probability } = certainty;
  return probability >= 0 && probability <= 1 ? NONE : [{ name: "probability out of range", value: probability, ...found(at) }];
}

/** Items of one group turn up together, or are chosen together: the later one that differs is named. */
function checkGroups(items: readonly WorkItem[], spots: readonly Spot[]): Problem[] {
  const first = new Map<string, number | boolean>();
  return items.flatMap(({ certainty }, at): readonly Problem[] => {
    if (certainty.is === "planned" || certainty.group === undefined) return NONE;
    const { is, group } = certainty;
    const [what, field, value] =
      is === "if found"
        ? (["probability", "probability", certainty.probability] as const)
        : (["choice", "chosen", certainty.chosen] as const);
    const key = `${is} ${group}`;
    const before = first.get(key);
    if (before === undefined) first.set(key, value);
    if (before === undefined || Object.is(before, value)) return NONE;
    return [{ name: "group differs", group, what, pointer: pointerTo(inside(spots[at]!, ["certainty", field])) }];
  });
}

/** Whole counts, and a standard for each size and mounting. */
export const checkBoards = ({ boards = [] }: EstimateInput, book: Book): Problem[] =>
  boards.flatMap((row, at) => {
    const here = spot(() => `Boards, ${row.size}, ${row.mounting}`, "boards", at);
    return [...count(row.count, inside(here, ["count"]), LIMITS.boards), ...checkStandard(row, here, book)];
  });
