import { basic, further } from "../../../.built/fonts/index.js";
import type { Cut, Pack } from "./pack.js";

export type Weight = "regular" | "bold";

/** What setting a character takes. Spaces that a line may break at are `space`. */
export interface Glyph {
  /** Its two-byte code, escaped for a PDF literal string. */
  readonly code: string;
  /** Thousandths of the type size. */
  readonly advance: number;
  /** Place of its cut in `cuts`. */
  readonly cut: number;
  readonly space: boolean;
}

/** The cuts fetched so far, each at a place of its own that does not depend on what was fetched first. */
export const cuts: (Cut | undefined)[] = [];
const fetched = new Set<number>();
const glyphs: Readonly<Record<Weight, Map<number, Glyph>>> = { regular: new Map(), bold: new Map() };

/** Printed in place of a character that no cut has. */
export const MISSING = 0xfffd;
/** Printed as another character: the full-width yen, hyphens and spaces that differ only in how lines may break. */
const ALIASES: readonly (readonly [number, number])[] = [
  [0xffe5, 0xa5],
  [0x2011, 0x2d],
  [0xa0, 0x20],
  [0x2007, 0x20],
  [0x202f, 0x20],
  [0x1680, 0x20],
  ...[0, 1, 2, 3, 4, 5, 6, 8, 9, 10].map((low) => [0x2000 + low, 0x20] as const),
  [0x205f, 0x20],
  [0x3000, 0x20],
];
const UNBREAKABLE = new Set([0xa0, 0x2007, 0x202f]);

add(basic, 0);
for (const map of Object.values(glyphs)) {
  for (const [from, to] of ALIASES) map.set(from, { ...map.get(to)!, space: to === 0x20 && !UNBREAKABLE.has(from) });
}

export const glyphOf = (code: number, weight: Weight): Glyph | undefined => glyphs[weight].get(code);

/** Fetches the packs that a text needs beyond the basic one. Call before setting it. */
export async function fetchPacksFor(text: string): Promise<void> {
  for (const [index, { covers, load }] of further.entries()) {
    if (fetched.has(index) || !covers.test(text)) continue;
    const { default: pack } = await load();
    if (fetched.has(index)) continue;
    fetched.add(index);
    add(pack, index + 1);
  }
}

function add(pack: Pack, place: number): void {
  for (const weight of ["regular", "bold"] as const) {
    const cut = 2 * place + (weight === "bold" ? 1 : 0);
    cuts[cut] = pack[weight];
    const { characters, glyphs: numbers, advances } = pack[weight];
    let index = 0;
    for (const character of characters) {
      glyphs[weight].set(character.codePointAt(0)!, {
        code: literal(numbers[index]! >> 8) + literal(numbers[index]! & 0xff),
        advance: advances[index]!,
        cut,
        space: character === " ",
      });
      index += 1;
    }
  }
}

/** ISO 32000-1, 7.3.4.2: parentheses, backslash and carriage return do not stand for themselves. */
function literal(byte: number): string {
  const character = String.fromCharCode(byte);
  if (character === "\r") return "\\r";
  return character === "(" || character === ")" || character === "\\" ? `\\${character}` : character;
}
