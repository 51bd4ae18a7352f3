/** The teardown map: known ids, standards for every fastener, whole counts, no rings. */
import { type Book, type Index, standardKey } from "../book.js";
import type { Access, Assembly, EstimateInput, WorthDoing } from "../input.js";
import type { Problem } from "../problems.js";
import { readMap } from "../teardown/map.js";
import { refitOrder, removalOrder } from "../teardown/orders.js";
import { count, threePoint } from "./figures.js";
import { repeated, unknown } from "./ids.js";
import { pointer } from "./pointer.js";
import { whereAssembly, whereItem } from "./where.js";

export function checkMap({ map, alreadyOpen = [], toOpen = [] }: EstimateInput, book: Book, known: Index<Assembly>): Problem[] {
  const { assemblies = [], fitBefore = [] } = map ?? {};
  const missing = (id: string, where: string, at: string) => unknown("assembly unknown", id, known, where, at);
  return [
    ...assemblies.flatMap((assembly, at) => checkAssembly(assembly, at, book, known)),
    ...repeated(
      assemblies,
      ({ id }) => id,
      "assembly",
      (at) => pointer("map", "assemblies", at, "id"),
    ),
    ...fitBefore.flatMap(({ first, then }, at) => [
      ...missing(first, "Refit order", pointer("map", "fitBefore", at, "first")),
      ...missing(then, "Refit order", pointer("map", "fitBefore", at, "then")),
    ]),
    ...alreadyOpen.flatMap((id, at) => missing(id, "Already open", pointer("alreadyOpen", at))),
    ...toOpen.flatMap((id, at) => missing(id, "To be opened", pointer("toOpen", at))),
    ...checkRings(map),
  ];
}

function checkAssembly(assembly: Assembly, at: number, book: Book, known: Index<Assembly>): Problem[] {
  const to = (...tokens: (string | number)[]) => pointer("map", "assemblies", at, ...tokens);
  const where = whereAssembly(assembly);
  const { behind = [], joined = [], counts = {}, worthDoing = [] } = assembly;
  return [
    ...checkAccess(assembly.access, where, to("access"), book),
    ...behind.flatMap((id, i) => unknown("assembly unknown", id, known, `${where}, what it sits behind`, to("behind", i))),
    ...joined.flatMap((id, i) => unknown("assembly unknown", id, known, `${where}, what it is joined to`, to("joined", i))),
    ...Object.entries(counts).flatMap(([id, value]) => {
      const column = book.partTypes.get(id)?.is.name ?? book.operations.get(id)?.is.name ?? id;
      return count(value, `${where}, ${column}`, to("counts", id));
    }),
    ...worthDoing.flatMap((work, i) => checkWorthDoing(work, assembly, to("worthDoing", i), book)),
  ];
}

export function checkAccess(access: Access, where: string, at: string, book: Book): Problem[] {
  if (access.by === "measured")
    return [
      ...threePoint(access.remove, `${where}, removal`, `${at}/remove`),
      ...threePoint(access.refit, `${where}, refit`, `${at}/refit`),
    ];
  if (access.by === "standard") return checkStandard(access, where, at, book);
  return access.fasteners.flatMap(({ kind, count: pieces }, i): Problem[] => [
    ...(book.fasteners.has(kind)
      ? []
      : [{ name: "fastener unknown", where, id: kind, pointer: `${at}/fasteners/${i}/kind` } as const]),
    ...count(pieces, `${where}, ${kind}`, `${at}/fasteners/${i}/count`),
  ]);
}

export function checkStandard(of: { size: string; mounting: string }, where: string, at: string, { standards }: Book): Problem[] {
  if (standards.has(standardKey(of))) return [];
  return [{ name: "access standard missing", where, size: of.size, mounting: of.mounting, pointer: at }];
}

function checkWorthDoing(work: WorthDoing, assembly: Assembly, at: string, book: Book): Problem[] {
  const { operation, partType } = work;
  const where = `${whereItem({ operation, ...(partType !== undefined && { part: { type: partType } }) }, assembly, book)}, worth doing`;
  const replaces = book.operations.get(operation)?.is.sort === "replacement";
  return [
    ...unknown("operation unknown", operation, book.operations, where, `${at}/operation`),
    ...count(work.count, where, `${at}/count`),
    ...(partType === undefined ? [] : unknown("part type unknown", partType, book.partTypes, where, `${at}/partType`)),
    ...(replaces && partType === undefined ? [{ name: "part missing", where, pointer: `${at}/partType` } as const] : []),
  ];
}

/** A ring of assemblies, each behind the next or joined to it; or each to be refitted before the next. */
function checkRings(map: EstimateInput["map"]): Problem[] {
  const read = readMap(map);
  const names = (places: readonly number[]) => places.map((place) => read.assemblies[place]!.name);
  const removal = removalOrder(read);
  if (!removal.ok) return [{ name: "behind cycle", cycle: names(removal.cycle), pointer: "/map/assemblies" }];
  const refit = refitOrder(read, removal.order);
  if (!refit.ok) return [{ name: "fit before cycle", cycle: names([...refit.cycle].reverse()), pointer: "/map/fitBefore" }];
  return [];
}
