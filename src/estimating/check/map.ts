/** The teardown map: known ids, standards for every fastener, whole counts, no rings. */
import { type Book, type Index, standardKey } from "../book.js";
import type { Access, Assembly, BoardSize, EstimateInput, Mounting, TeardownMap, WorkItem, WorthDoing } from "../input.js";
import type { Problem } from "../problems.js";
import { type MapReading, readMap } from "../teardown/map.js";
import { type Link, refitOrder, removalOrder } from "../teardown/order.js";
import { count, ifGiven, NONE, repeated, threePoint, unknown } from "./figures.js";
import { found, inside, part, type Spot, spot, whereAssembly, whereItem } from "./spot.js";

export function checkMap(
  { map, alreadyOpen = [], openAtNoCharge = [], toOpen = [] }: EstimateInput,
  book: Book,
  known: Index<Assembly>,
): Problem[] {
  const { assemblies = [], fitBefore = [] } = map ?? {};
  const spots = assemblies.map((assembly, at) => spot(() => whereAssembly(assembly), "map", "assemblies", at));
  const listed = (ids: readonly string[], words: string, list: string) =>
    ids.flatMap((id, at) =>
      unknown(
        "assembly unknown",
        id,
        known,
        spot(() => words, list, at),
      ),
    );
  return [
    ...assemblies.flatMap((assembly, at) => checkAssembly(assembly, spots[at]!, book, known)),
    ...repeated(
      assemblies,
      ({ id }) => id,
      "assembly",
      (at) => inside(spots[at]!, ["id"]),
    ),
    ...fitBefore.flatMap(({ first, then }, at) => {
      const here = spot(() => "Refit order", "map", "fitBefore", at);
      return [
        ...unknown("assembly unknown", first, known, inside(here, ["first"])),
        ...unknown("assembly unknown", then, known, inside(here, ["then"])),
      ];
    }),
    ...listed(alreadyOpen, "Already open", "alreadyOpen"),
    ...listed(openAtNoCharge, "Open at no charge", "openAtNoCharge"),
    ...listed(toOpen, "To be opened", "toOpen"),
  ];
}

function checkAssembly(assembly: Assembly, here: Spot, book: Book, known: Index<Assembly>): Problem[] {
  const { access, behind = [], joined = [], counts = {}, worthDoing = [] } = assembly;
  const ids = (list: readonly string[], field: string, what: string) =>
    list.flatMap((id, i) => unknown("assembly unknown", id, known, part(here, what, field, i)));
  return [
    ...checkAccess(access, inside(here, ["access"]), book),
    ...ids(behind, "behind", "what it sits behind"),
    ...ids(joined, "joined", "what it is joined to"),
    ...Object.entries(counts).flatMap(([id, value]) => {
      const words = () => book.partTypes.get(id)?.is.name ?? book.operations.get(id)?.is.name ?? id;
      return count(
        value,
        inside(here, ["counts", id], () => `${here.words()}, ${words()}`),
      );
    }),
    ...worthDoing.flatMap((work, i) => checkWorthDoing(work, assembly, inside(here, ["worthDoing", i]), book)),
  ];
}

function checkAccess(access: Access, at: Spot, book: Book): readonly Problem[] {
  if (access.by === "measured")
    return [...threePoint(access.remove, part(at, "removal", "remove")), ...threePoint(access.refit, part(at, "refit", "refit"))];
  if (access.by === "standard") return checkStandard(access, at, book);
  return access.fasteners.flatMap(({ kind, count: pieces }, i) => [
    ...(book.fasteners.has(kind)
      ? NONE
      : [{ name: "fastener unknown", id: kind, ...found(inside(at, ["fasteners", i, "kind"])) } as const]),
    ...count(pieces, part(at, kind, "fasteners", i, "count")),
  ]);
}

export function checkStandard(
  { size, mounting }: { readonly size: BoardSize; readonly mounting: Mounting },
  at: Spot,
  { standards }: Book,
): readonly Problem[] {
  if (standards.has(standardKey({ size, mounting }))) return NONE;
  return [{ name: "access standard missing", size, mounting, ...found(at) }];
}

function checkWorthDoing(
  { operation, partType, count: pieces }: WorthDoing,
  assembly: Assembly,
  at: Spot,
  book: Book,
): Problem[] {
  const item: WorkItem = {
    id: "",
    count: pieces,
    certainty: { is: "planned" },
    operation,
    ...(partType !== undefined && { part: { type: partType } }),
  };
  const here = inside(at, [], () => `${whereItem(item, assembly, book)}, worth doing`);
  const partMissing = partType === undefined && book.operations.get(operation)?.is.sort === "replacement";
  return [
    ...unknown("operation unknown", operation, book.operations, inside(here, ["operation"])),
    ...count(pieces, inside(here, ["count"])),
    ...ifGiven(partType, (id) => unknown("part type unknown", id, book.partTypes, inside(here, ["partType"]))),
    ...(partMissing ? [{ name: "part missing", ...found(inside(here, ["partType"])) } as const] : NONE),
  ];
}

/** A ring of assemblies, each behind the next or joined to it; or each to be refitted before the next. */
export function checkRings(map: TeardownMap | undefined): Problem[] {
  const read = readMap(map);
  const removal = removalOrder(read);
  if (!removal.ok) return [{ name: "behind cycle", ...named(removal.ring, read), pointer: "/map/assemblies" }];
  const refit = refitOrder(read, removal.order);
  if (!refit.ok) return [{ name: "fit before cycle", ...named(backwards(refit.ring), read), pointer: "/map/fitBefore" }];
  return [];
}

/** What waits for the next becomes what the next waits for. */
const backwards = (ring: readonly Link[]): Link[] =>
  ring.map((_, i) => ({ place: ring.at(-1 - i)!.place, joined: ring.at(-2 - i)?.joined ?? ring.at(-1)!.joined }));

function named(ring: readonly Link[], { assemblies }: MapReading) {
  const joined = ring.flatMap((link, i) => (link.joined ? [i] : []));
  return { cycle: ring.map(({ place }) => assemblies[place]!.name), ...(joined.length > 0 && { joined }) };
}
