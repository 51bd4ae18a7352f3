/** Compiles the documents' fonts into modules under `.built/fonts`, so that a request only looks glyphs up. */
import { createHash } from "node:crypto";
import { mkdir, readdir, readFile, writeFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";
import { cutFont, cutForScreen, SCRIPTS, type Script, scriptOf } from "./cut.js";
import { indexModule, packModule, unicodeRange } from "./packModule.js";
import { readCharacterMap, tableOf } from "./sfnt.js";

const FAMILY = "@expo-google-fonts/ibm-plex-sans";
/** The licence reserves the family's name for the uncut font, so the cuts carry ours. */
const WEIGHTS = {
  regular: { file: "400Regular/IBMPlexSans_400Regular.ttf", name: "OHMWRT+OhmwrightText-Regular", stem: 95, css: 400 },
  bold: { file: "600SemiBold/IBMPlexSans_600SemiBold.ttf", name: "OHMWRT+OhmwrightText-SemiBold", stem: 140, css: 600 },
} as const;

const packages = createRequire(import.meta.url);
const here = fileURLToPath(new URL(".", import.meta.url));
const built = fileURLToPath(new URL("../../../.built/fonts/", import.meta.url));

/** A face of the stylesheet, that a page asks for when it has a letter of it. */
export interface ScreenFace {
  readonly script: Script;
  readonly weight: number;
  readonly range: string;
  /** Base64. */
  readonly woff2: string;
}

/** Writes the packs, their index, the faces for screens and the licence into `target`. Does nothing when neither the fonts nor the compiler changed. */
export async function compileFonts(target: string = built): Promise<void> {
  const regular = await readFile(packages.resolve(`${FAMILY}/${WEIGHTS.regular.file}`));
  const bold = await readFile(packages.resolve(`${FAMILY}/${WEIGHTS.bold.file}`));
  const key = await keyOf([regular, bold]);
  if ((await readFile(`${target}/key`, "utf8").catch(() => "")) === key) return;
  await mkdir(target, { recursive: true });
  const licence = await readFile(packages.resolve(`${FAMILY}/LICENSE_FONT`), "utf8");
  const copyright = licence.slice(0, licence.indexOf("\n")).trim();
  const covers = charactersByScript([regular, bold]);
  const faces: ScreenFace[] = [];
  for (const [script, codes] of covers) {
    const characters = String.fromCodePoint(...codes);
    const cuts = {
      regular: await cutFont(regular, characters, faceOf("regular", regular)),
      bold: await cutFont(bold, characters, faceOf("bold", bold)),
    };
    await writeFile(`${target}/${script}.ts`, packModule(cuts, copyright));
    for (const [font, { name, css }] of [
      [regular, WEIGHTS.regular],
      [bold, WEIGHTS.bold],
    ] as const) {
      const names = { 0: copyright, 1: "Ohmwright Text", 2: css === 400 ? "Regular" : "SemiBold", 4: name, 6: name };
      const woff2 = (await cutForScreen(font, characters, names)).toString("base64");
      faces.push({ script, weight: css, range: unicodeRange(codes), woff2 });
    }
  }
  await writeFile(`${target}/index.ts`, indexModule(covers));
  await writeFile(`${target}/screen.json`, JSON.stringify(faces));
  await writeFile(`${target}/OFL.txt`, licence);
  await writeFile(`${target}/key`, key);
}

/** What both weights can draw, by script, in code point order. */
function charactersByScript(fonts: readonly Buffer[]): Map<Script, number[]> {
  const [first, ...rest] = fonts.map(readCharacterMap);
  const common = [...first!.keys()].filter((code) => rest.every((map) => map.has(code))).sort((a, b) => a - b);
  return new Map(SCRIPTS.map((script) => [script, common.filter((code) => scriptOf(code) === script)]));
}

function faceOf(weight: keyof typeof WEIGHTS, font: Buffer): { name: string; capHeight: number; stem: number } {
  return { name: WEIGHTS[weight].name, stem: WEIGHTS[weight].stem, capHeight: tableOf(font, "OS/2").getInt16(88) };
}

async function keyOf(fonts: readonly Buffer[]): Promise<string> {
  const hash = createHash("sha256");
  for (const font of fonts) hash.update(font);
  const own = (await readdir(here)).filter((name) => name.endsWith(".ts")).sort();
  for (const name of own) hash.update(await readFile(`${here}/${name}`));
  return hash.update(await readFile(packages.resolve("subset-font/package.json"))).digest("hex");
}
