import { deflateSync } from "node:zlib";
import subsetFont from "subset-font";
import type { Cut } from "../../documents/type/pack.js";
import { readCharacterMap } from "./characterMap.js";
import { readMetrics } from "./sfnt.js";
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
