import { deflateSync } from "node:zlib";
import subsetFont from "subset-font";
import type { Cut } from "../../documents/type/pack.js";
import { readCharacterMap, readMetrics, renamed } from "./sfnt.js";
import { toUnicodeMap } from "./toUnicode.js";

/** A PDF reader finds glyphs by number alone, so naming, lookup and layout tables are not carried. */
const UNUSED = ["GSUB", "GPOS", "GDEF", "STAT", "gasp", "DSIG", "name", "OS/2", "post"];

/** Cuts a TrueType file to the characters given and strips it to what a PDF needs. Same input, same cut. */
export async function cutFont(
  font: Buffer,
  characters: string,
  face: { name: string; capHeight: number; stem: number },
): Promise<Cut> {
  const options = { targetFormat: "truetype", noHinting: true, noLayoutClosure: true, keepFeatures: [] } as const;
  const mapped = readCharacterMap(await subsetFont(font, characters, { ...options, dropTables: UNUSED }));
  const program = await subsetFont(font, characters, { ...options, dropTables: [...UNUSED, "cmap"] });
  const { unitsPerEm, box, ascent, descent, advances } = readMetrics(program);
  if (unitsPerEm !== 1000) throw new Error(`${face.name}: PDF widths need 1000 units per em, not ${unitsPerEm}`);
  const list = [...characters];
  const glyphs = list.map((character) => {
    const glyph = mapped.get(character.codePointAt(0)!);
    if (glyph === undefined) throw new Error(`${face.name} lost the character ${character}`);
    return glyph;
  });
  return {
    ...face,
    characters,
    glyphs,
    advances: glyphs.map((glyph) => advances[glyph]!),
    widths: `[0[${advances.join(" ")}]]`,
    box,
    ascent,
    descent,
    program: deflateSync(program, { level: 9 }).toString("base64"),
    programLength: program.length,
    toUnicode: deflateSync(toUnicodeMap(glyphs, list), { level: 9 }).toString("base64"),
  };
}

/** The same letters for a screen, as WOFF2 (W3C Recommendation, 2022): without kerning, as they stand on paper. */
export async function cutForScreen(font: Buffer, characters: string, names: Readonly<Record<number, string>>): Promise<Buffer> {
  const options = { noHinting: true, noLayoutClosure: true, keepFeatures: [] } as const;
  const dropTables = ["GSUB", "GPOS", "GDEF", "STAT", "gasp", "DSIG"];
  const program = await subsetFont(font, characters, { ...options, targetFormat: "truetype", dropTables });
  return subsetFont(renamed(program, names), characters, { ...options, targetFormat: "woff2", dropTables });
}

/** Which pack a character is cut into. Ohm and micro signs live with the Latin digits they follow, so that a value needs one pack. */
export const SCRIPTS = ["basic", "latin", "greek", "cyrillic"] as const;
export type Script = (typeof SCRIPTS)[number];

const OHM = 0x03a9;
const MU = 0x03bc;
/** Stands for what the fonts lack. */
const REPLACEMENT = 0xfffd;

/** undefined: not printed as itself (layout characters, private use). */
export function scriptOf(code: number): Script | undefined {
  if (code < 0x20 || (code >= 0x7f && code <= 0xa0) || code === 0xad) return undefined;
  if ((code >= 0x2000 && code <= 0x200f) || (code >= 0x2028 && code <= 0x202f) || (code >= 0x205f && code <= 0x206f))
    return undefined;
  if (code < 0x100 || code === OHM || code === MU || code === REPLACEMENT) return "basic";
  if (code < 0x370 || (code >= 0x1e00 && code < 0x1f00) || (code >= 0xfb00 && code < 0xfb07)) return "latin";
  if (code < 0x400) return "greek";
  if (code < 0x530) return "cyrillic";
  if ((code >= 0x2000 && code < 0x2c00) || code === 0xe3f) return "basic";
  return undefined;
}
