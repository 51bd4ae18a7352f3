/** The text of a PDF of ours, run by run as it is drawn: by the file's own ToUnicode maps, in this process. Poppler, which the paper tests ask, is a process a page. */
import { inflateSync } from "node:zlib";

type Letters = ReadonlyMap<number, string>;

const MAPS = new Map<string, Letters>();

/** Without any white space, so that a figure is found however its line is broken. */
export function paperText(bytes: Uint8Array): string {
  const file = Buffer.from(bytes).toString("latin1");
  const objects = new Map<string, string>();
  for (const [, id, body] of file.matchAll(/(\d+) 0 obj\s([\s\S]*?)\sendobj/g)) objects.set(id!, body!);
  const fonts = new Map<string, Letters>();
  for (const [, name, id] of file.matchAll(/\/(F\d+) (\d+) 0 R/g)) {
    const map = /\/ToUnicode (\d+) 0 R/.exec(objects.get(id!) ?? "")?.[1];
    if (map !== undefined) fonts.set(name!, lettersOf(streamOf(objects.get(map)!)));
  }
  const pages = [...file.matchAll(/\/Contents (\d+) 0 R/g)].map(([, id]) => streamOf(objects.get(id!)!));
  if (pages.length === 0) throw new Error("A PDF without pages.");
  return pages.map((page) => drawn(page, fonts)).join("\n");
}

const streamOf = (object: string): string => /stream\r?\n([\s\S]*?)\r?\n?endstream/.exec(object)![1]!;

function lettersOf(packed: string): Letters {
  const known = MAPS.get(packed);
  if (known) return known;
  const cmap = inflateSync(Buffer.from(packed, "latin1")).toString("latin1");
  const letters = new Map<number, string>();
  const text = (hex: string) => Buffer.from(hex, "hex").swap16().toString("utf16le");
  for (const [, block] of cmap.matchAll(/beginbfchar([\s\S]*?)endbfchar/g))
    for (const [, from, to] of block!.matchAll(/<([0-9a-fA-F]+)>\s*<([0-9a-fA-F]+)>/g))
      letters.set(Number.parseInt(from!, 16), text(to!));
  for (const [, block] of cmap.matchAll(/beginbfrange([\s\S]*?)endbfrange/g))
    for (const [, from, to, first] of block!.matchAll(/<([0-9a-fA-F]+)>\s*<([0-9a-fA-F]+)>\s*<([0-9a-fA-F]+)>/g))
      for (let code = Number.parseInt(from!, 16); code <= Number.parseInt(to!, 16); code += 1)
        letters.set(code, String.fromCharCode(Number.parseInt(first!, 16) + code - Number.parseInt(from!, 16)));
  MAPS.set(packed, letters);
  return letters;
}

const ESCAPED: Readonly<Record<string, string>> = { n: "\n", r: "\r", t: "\t", b: "\b", f: "\f" };

function drawn(page: string, fonts: ReadonlyMap<string, Letters>): string {
  let letters: Letters = new Map();
  let text = "";
  for (const [, font, run] of page.matchAll(/\/(F\d+) [\d.]+ Tf|\(((?:\\[\s\S]|[^\\)])*)\)Tj/g)) {
    if (font !== undefined) letters = fonts.get(font)!;
    if (run === undefined) continue;
    const codes = run.replaceAll(/\\(\d{1,3}|[\s\S])/g, (_, of: string) =>
      /\d/.test(of) ? String.fromCharCode(Number.parseInt(of, 8)) : (ESCAPED[of] ?? of),
    );
    for (let at = 0; at < codes.length; at += 2)
      text += letters.get(codes.charCodeAt(at) * 256 + codes.charCodeAt(at + 1)) ?? "�";
  }
  return bare(text);
}

export const bare = (text: string): string => text.replaceAll(/\s+/gu, "");
