/** The cuts against the uncut font as fontkit reads it: a reader of OpenType that is not ours (@pdf-lib/fontkit, MIT). */
import { mkdtemp, readdir, readFile, stat } from "node:fs/promises";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { inflateSync } from "node:zlib";
import fontkit from "@pdf-lib/fontkit";
import { beforeAll, describe, expect, it } from "vitest";
import type { Cut, Pack } from "../../../src/documents/type/pack.js";
import { compileFonts, type ScreenFace } from "../../../src/tools/fonts/compile.js";
import { readMetrics } from "../../../src/tools/fonts/sfnt.js";

const packages = createRequire(import.meta.url);
const whole = {
  regular: packages.resolve("@expo-google-fonts/ibm-plex-sans/400Regular/IBMPlexSans_400Regular.ttf"),
  bold: packages.resolve("@expo-google-fonts/ibm-plex-sans/600SemiBold/IBMPlexSans_600SemiBold.ttf"),
};
const SCRIPTS = ["basic", "latin", "greek", "cyrillic"];
let folder: string;
let packs: Map<string, Pack>;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "fonts-"));
  await compileFonts(folder);
  packs = new Map(
    await Promise.all(
      SCRIPTS.map(async (script) => {
        const text = await readFile(join(folder, `${script}.ts`), "utf8");
        const json = text.slice(text.indexOf("= {") + 2, text.lastIndexOf(";\nexport"));
        return [script, JSON.parse(json) as Pack] as const;
      }),
    ),
  );
});

const everyCut = (): [string, keyof typeof whole, Cut][] =>
  [...packs].flatMap(([script, pack]) =>
    (["regular", "bold"] as const).map((weight) => [script, weight, pack[weight]] as [string, keyof typeof whole, Cut]),
  );

describe("compiling the fonts", () => {
  it("keeps the width that the uncut font gives each character", async () => {
    for (const [, weight, cut] of everyCut()) {
      const font = fontkit.create(await readFile(whole[weight]));
      const expected = [...cut.characters].map((character) => font.glyphForCodePoint(character.codePointAt(0)!).advanceWidth);
      expect(cut.advances).toEqual(expected);
    }
  });

  it("keeps the outline of each character", async () => {
    for (const [, weight, cut] of everyCut()) {
      const font = fontkit.create(await readFile(whole[weight]));
      const program = inflateSync(Buffer.from(cut.program, "base64"));
      expect(program).toHaveLength(cut.programLength);
      const own = fontkit.create(program);
      [...cut.characters].forEach((character, index) => {
        const expected = font.glyphForCodePoint(character.codePointAt(0)!).path.toSVG();
        expect(own.getGlyph(cut.glyphs[index]!).path.toSVG(), character).toBe(expected);
      });
    }
  });

  it("writes PDF widths for every glyph of the cut", () => {
    for (const [, , cut] of everyCut()) {
      const { advances } = readMetrics(inflateSync(Buffer.from(cut.program, "base64")));
      expect(cut.widths).toBe(`[0[${advances.join(" ")}]]`);
    }
  });

  it("maps every glyph back to the character it draws", () => {
    for (const [, , cut] of everyCut()) {
      const map = inflateSync(Buffer.from(cut.toUnicode, "base64")).toString("latin1");
      const pairs = new Map(
        [...map.matchAll(/^<([0-9A-F]{4})><([0-9A-F]+)>$/gm)].map(([, glyph, text]) => [Number.parseInt(glyph!, 16), text!]),
      );
      const drawnBy = new Map<number, string[]>();
      [...cut.characters].forEach((character, index) => {
        const hex = character.charCodeAt(0).toString(16).toUpperCase().padStart(4, "0");
        drawnBy.set(cut.glyphs[index]!, [...(drawnBy.get(cut.glyphs[index]!) ?? []), hex]);
      });
      for (const [glyph, characters] of drawnBy) expect(characters).toContain(pairs.get(glyph));
    }
  });

  it("puts no character into two packs", () => {
    const all = [...packs.values()].flatMap(({ regular }) => [...regular.characters]);
    expect(new Set(all).size).toBe(all.length);
  });

  it("cuts the same letters for screens, a face of at most 14 kB each, with the widths that the papers have", async () => {
    const faces = JSON.parse(await readFile(join(folder, "screen.json"), "utf8")) as ScreenFace[];
    expect(faces.map(({ script, weight }) => `${script} ${weight}`)).toEqual(
      SCRIPTS.flatMap((script) => [`${script} 400`, `${script} 600`]),
    );
    for (const { script, weight, range, woff2 } of faces) {
      const bytes = Buffer.from(woff2, "base64");
      expect(bytes.toString("latin1", 0, 4)).toBe("wOF2");
      expect(bytes.length).toBeLessThan(14_000);
      const font = fontkit.create(bytes);
      expect([font.familyName, font.fullName]).not.toContainEqual(expect.stringMatching(/plex/i));
      expect(font.familyName).toBe("Ohmwright Text");
      const cut = packs.get(script)![weight === 400 ? "regular" : "bold"];
      const widths = [...cut.characters].map((character) => font.glyphForCodePoint(character.codePointAt(0)!).advanceWidth);
      expect(widths).toEqual(cut.advances);
      const covered = range.split(",").flatMap((part) => {
        const [from, to = from] = part
          .slice(2)
          .split("-")
          .map((code) => Number.parseInt(code, 16));
        return Array.from({ length: to! - from! + 1 }, (_, index) => from! + index);
      });
      expect(String.fromCodePoint(...covered)).toBe(cut.characters);
    }
  });

  it("carries no reserved font name, and the licence beside the cuts", async () => {
    for (const [, , cut] of everyCut()) {
      expect(cut.name).not.toMatch(/plex/i);
      expect(inflateSync(Buffer.from(cut.program, "base64")).toString("latin1")).not.toMatch(/plex/i);
    }
    expect(await readFile(join(folder, "OFL.txt"), "utf8")).toContain("SIL Open Font License");
  });

  it("gives the same bytes again, and does nothing when nothing changed", async () => {
    const other = await mkdtemp(join(tmpdir(), "fonts-"));
    await compileFonts(other);
    for (const name of await readdir(folder)) {
      expect(await readFile(join(other, name), "utf8")).toBe(await readFile(join(folder, name), "utf8"));
    }
    const written = async () => Promise.all((await readdir(other)).map(async (name) => (await stat(join(other, name))).mtimeMs));
    const before = await written();
    await compileFonts(other);
    expect(await written()).toEqual(before);
  });
});
