/** A place that the job's map does not have yet, as a fault names it: what it is, and how it is reached. */
import { z } from "zod";
import type { Access, Assembly, EstimateInput, FastenerKind } from "../estimating/input.js";
import { ASSEMBLY_SORTS, BOARD_SIZES, MOUNTINGS } from "../estimating/lists.js";
import { foundByName, type Named, unknownNameText } from "../wording/named.js";
import { type refused, wrongField } from "./act.js";
import type { Fault } from "./fault.js";
import { choice, count, maybe, several, tick } from "./field.js";
import { ident } from "./shapes/primitives.js";

export const placeFields = z.strictObject({
  placeBehind: maybe(
    several("Behind what").meta({
      description: "Of a place the map does not have: what must be off to reach it, by id or name",
    }),
  ),
  placeFasteners: maybe(z.record(ident, count("Fasteners"))).meta({
    description: "What holds it, by kind, such as screw; none: by its size and mounting",
  }),
  placeSize: maybe(choice("Size", BOARD_SIZES, { hint: "Where no fasteners are counted." })),
  placeMounting: maybe(choice("Mounting", MOUNTINGS)),
  placeSort: maybe(choice("What it is", ASSEMBLY_SORTS, { hint: "Not said: a board." })),
  placeOpen: maybe(tick("It stands open now", { hint: "Then opening it is not charged." })),
});
type Said = z.output<typeof placeFields> & { readonly where?: string | undefined };

/** The way to a place is said of one that the map does not have. */
const saysPlace = ({ placeBehind = [], placeFasteners = {}, placeSize, placeMounting }: Partial<Said>): boolean =>
  placeBehind.length > 0 || Object.keys(placeFasteners).length > 0 || placeSize !== undefined || placeMounting !== undefined;

/** A place that the map does not have yet; undefined where none is said. */
export function placeSaid(said: Said, { map }: EstimateInput): Assembly | undefined | ReturnType<typeof refused> {
  if (!saysPlace(said)) return undefined;
  const { where, placeBehind = [], placeSort = "board" } = said;
  const among: readonly Named[] = map?.assemblies ?? [];
  if (where === undefined)
    return wrongField("/where", "key missing", "Where is missing; name the place whose way is said below.");
  if (foundByName(where, among))
    return wrongField(
      "/where",
      "id taken",
      `Where: '${where}' is on this unit's map with the way to it; leave out what is said of it below, or give the new place another name.`,
    );
  const behind = placeBehind.map((typed) => ({ typed, found: foundByName(typed, among)?.id }));
  const lost = behind.find(({ found }) => found === undefined);
  if (lost)
    return wrongField(
      "/placeBehind",
      "record unknown",
      `Behind what: ${unknownNameText(
        lost.typed,
        among.map(({ name }) => name),
      )}`,
    );
  const access = accessSaid(said);
  if ("refused" in access) return access;
  const front = behind.flatMap(({ found }) => found ?? []);
  return { id: freshPlace(among), name: where, sort: placeSort, access, ...(front.length > 0 && { behind: front }) };
}

/** By the fasteners where any are counted, else by the rate book's standard. */
function accessSaid({ placeFasteners = {}, placeSize, placeMounting }: Said): Access | ReturnType<typeof refused> {
  const fasteners = Object.entries(placeFasteners).map(([kind, count]) => ({ kind: kind as FastenerKind, count }));
  if (fasteners.length > 0) return { by: "fasteners", fasteners };
  if (placeSize === undefined)
    return wrongField(
      "/placeSize",
      "key missing",
      "Size is missing; count what holds the place, or give its size and how it is mounted.",
    );
  if (placeMounting === undefined)
    return wrongField("/placeMounting", "key missing", "Mounting is missing; say how a place of that size is mounted.");
  return { by: "standard", size: placeSize, mounting: placeMounting };
}

function freshPlace(among: readonly Named[]): string {
  const taken = new Set(among.map(({ id }) => id));
  for (let next = 1; ; next += 1) if (!taken.has(`place${next}`)) return `place${next}`;
}

/** The engine's complaint about it, at its fields; undefined where it is about something else. */
export const placeFault = (pointer: string, { map }: Pick<EstimateInput, "map">): string | undefined => {
  if (!pointer.startsWith(`/map/assemblies/${map?.assemblies.length ?? 0}/`)) return undefined;
  return pointer.includes("/fasteners") ? "/placeFasteners" : "/placeSize";
};

/** A place that is not known may be one that the map does not have. */
export const orPlace = (faults: readonly Fault[]): Fault[] =>
  faults.map((fault) =>
    fault.pointer === "/where"
      ? { ...fault, detail: `${fault.detail} If it is not on this unit's map, say below how it is reached.` }
      : fault,
  );
