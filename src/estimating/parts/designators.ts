/**
 * Reference designators of a parts list: 'C1, C3-C5 R7' names six parts. Letters and what they stand for: IEEE 315 and ASME Y14.44,
 * from memory; a range runs over its numbers.
 */
import type { PartFamily, PartType } from "../input.js";
import { readMarking } from "./marking.js";

interface Designators {
  /** The letters they all share; absent where there are none or several. */
  readonly prefix?: string;
  readonly count: number;
}

type DesignatorFault =
  | { readonly is: "unreadable"; readonly text: string }
  | { readonly is: "range backwards"; readonly text: string }
  | { readonly is: "twice"; readonly text: string }
  | { readonly is: "letters differ"; readonly text: string };

/** Longer ranges are slips of typing. */
const LONGEST = 500;

/** `seen` collects them over a whole list, so that none stands twice. */
export function readDesignators(text: string, seen: Set<string>): Designators | DesignatorFault {
  const parts = text
    .replaceAll(/\s*(?:-|–|\.\.|\bto\b)\s*/gi, "-")
    .split(/[\s,;/]+/)
    .filter(Boolean);
  let [prefix, count]: [string | undefined, number] = [undefined, 0];
  for (const part of parts) {
    const [, letters = "", first = "", suffix = "", letters2 = "", last = first] =
      /^([A-Za-z]{1,4})(\d{1,6})([A-Za-z]?)(?:-([A-Za-z]{0,4})(\d{1,6}))?$/.exec(part) ?? [];
    const own = letters.toUpperCase();
    if (own === "") return { is: "unreadable", text: part };
    if (letters2 !== "" && letters2.toUpperCase() !== own) return { is: "letters differ", text: part };
    if (prefix !== undefined && prefix !== own) return { is: "letters differ", text: part };
    prefix = own;
    if (Number(last) < Number(first)) return { is: "range backwards", text: part };
    if (Number(last) - Number(first) >= LONGEST) return { is: "unreadable", text: part };
    for (let number = Number(first); number <= Number(last); number += 1) {
      const name = `${own}${number}${suffix.toUpperCase()}`;
      if (seen.has(name)) return { is: "twice", text: name };
      seen.add(name);
      count += 1;
    }
  }
  return { count, ...(prefix !== undefined && { prefix }) };
}

const FAMILIES: Readonly<Record<string, PartFamily>> = {
  ...{ C: "capacitor", R: "resistor", RV: "control", VR: "control", RP: "control", P: "connector", J: "connector" },
  ...{ D: "semiconductor", CR: "semiconductor", ZD: "semiconductor", Q: "semiconductor", TR: "semiconductor" },
  ...{ U: "semiconductor", IC: "semiconductor", V: "valve", BT: "cell", DS: "lamp", LA: "lamp", X: "connector" },
};

const familyOf = (prefix: string): PartFamily | undefined => FAMILIES[prefix];

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

/** Which of the rate book's part types a line is, as far as its designator and value tell; undefined where several would do. */
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
