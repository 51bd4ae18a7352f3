/** The typeface of our papers as other libraries take it: whole, and cut beforehand to the letters of our own first cut and what else is drawn. */
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import subsetFont from "subset-font";
import { cuts } from "../../../src/documents/type/typeface.js";
import type { Drawn } from "./drawn.js";

export interface Fonts {
  readonly regular: Buffer;
  readonly bold: Buffer;
}

const packages = createRequire(import.meta.url);
const file = (name: string) => readFile(packages.resolve(`@expo-google-fonts/ibm-plex-sans/${name}.ttf`));

export async function wholeFonts(): Promise<Fonts> {
  return { regular: await file("400Regular/IBMPlexSans_400Regular"), bold: await file("600SemiBold/IBMPlexSans_600SemiBold") };
}

/** Without what a line at a given place needs no table for, so that no peer is slower by it. */
export async function cutFonts({ regular, bold }: Fonts, { pages }: Drawn): Promise<Fonts> {
  const drawn = pages.flatMap((lines) => lines.map(({ text }) => text)).join("");
  const cut = (font: Buffer, place: number) =>
    subsetFont(font, cuts[place]!.characters + drawn, {
      ...{ targetFormat: "truetype", noHinting: true, noLayoutClosure: true, keepFeatures: [] },
      dropTables: ["GSUB", "GPOS", "GDEF", "STAT", "gasp", "DSIG"],
    });
  return { regular: await cut(regular, 0), bold: await cut(bold, 1) };
}
