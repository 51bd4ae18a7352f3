/** Which of the rate book's part types a line of a parts list is, as far as its designator and value tell. */
import type { PartType } from "../input.js";
import { familyOf } from "./designators.js";
import { readMarking } from "./marking.js";

const NANOFARAD = 1_000_000n;
const MICROFARAD = 1_000_000_000n;

/**
 * Lines that are one type to the shop: by letters, capacitors also by size. From 1 uF they are mostly electrolytic, below 1 nF mostly
 * ceramic, between mostly film (common practice, no source): so a group's type is only proposed.
 */
export function groupOf(prefix: string, value: string): string {
  if (familyOf(prefix) !== "capacitor") return prefix;
  const farads = readMarking(value, "capacitor")?.value;
  if (farads === undefined) return prefix;
  return farads >= MICROFARAD ? `${prefix} from 1 µF` : farads < NANOFARAD ? `${prefix} below 1 nF` : `${prefix} from 1 nF`;
}

/** Undefined where several types would do. */
export function proposedType(group: string, types: readonly PartType[]): PartType | undefined {
  const [prefix = "", ...size] = group.split(" ");
  const family = familyOf(prefix);
  if (!family) return undefined;
  const own = types.filter((type) => type.family === family);
  if (family === "capacitor") {
    const wanted = { "from 1 µF": "aluminium", "below 1 nF": "other", "from 1 nF": "film" }[size.join(" ")];
    return own.find(({ dielectric }) => dielectric === wanted);
  }
  return own.length === 1 ? own[0] : undefined;
}
