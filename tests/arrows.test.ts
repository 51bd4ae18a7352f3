/**
 * Who may import whom. estimating <- wording <- {documents, pages}; estimating <- records; all <- http <- {worker, server, tools}.
 * Records, documents and pages never see one another. Type-only imports count, and so do imports of what the build makes.
 */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join, normalize, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

const ROOT = fileURLToPath(new URL("..", import.meta.url));
const SRC = join(ROOT, "src");

/** For each room, the rooms it may import. `made by the build` is .built/: fonts for the documents, assets for the two entries. */
const ALLOWED = {
  estimating: [],
  wording: ["estimating"],
  records: ["estimating"],
  documents: ["estimating", "wording", "made by the build"],
  pages: ["estimating", "wording"],
  http: ["estimating", "wording", "records", "documents", "pages"],
  worker: ["http", "records", "made by the build"],
  server: ["http", "records", "made by the build"],
  tools: ["estimating", "wording", "records", "documents", "pages", "http", "server"],
} as const satisfies Record<string, readonly string[]>;

type Room = keyof typeof ALLOWED;

interface Edge {
  readonly file: string;
  readonly target: string;
  readonly from: string;
  readonly to: string;
}

/** Rooms are folders of src; worker.ts and server.ts are rooms of one file. */
const roomOf = (path: string): string => {
  const within = relative(SRC, path);
  if (within.startsWith(".."))
    return normalize(path).includes("/.built/") ? "made by the build" : `outside: ${relative(ROOT, path)}`;
  return within.split("/")[0]!.replace(/\.(tsx?|js)$/, "");
};

/** Every specifier that is imported, exported from, or loaded later. */
const specifiers = (source: string): string[] =>
  [...source.matchAll(/(?<!["'`.\w])(?:from|import)\s*\(?\s*["'`]([^"'`]+)["'`]/g)].map(([, specifier]) => specifier!);

const edgesOf = (file: string, source: string): Edge[] =>
  specifiers(source)
    .filter((specifier) => specifier.startsWith("."))
    .map((specifier) => join(dirname(file), specifier))
    .map((target) => ({ file: relative(ROOT, file), target, from: roomOf(file), to: roomOf(target) }))
    .filter(({ from, to }) => from !== to);

/** A tool that writes code has imports in its texts: they lead nowhere from where they stand. The compiler sees to the others. */
const leadsSomewhere = ({ target, to }: Edge): boolean =>
  to === "made by the build" || [".ts", ".tsx", ".js"].some((end) => existsSync(target.replace(/\.js$/, end)));

const forbidden = ({ from, to }: Edge): boolean => !(ALLOWED[from as Room] as readonly string[] | undefined)?.includes(to);

const files = (folder: string): string[] =>
  readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name));

describe("the house", () => {
  const all = files(SRC);
  const edges = all.flatMap((file) => edgesOf(file, readFileSync(file, "utf8"))).filter(leadsSomewhere);

  it("has every room that is listed, and no other", () => {
    const onDisk = new Set(all.map(roomOf));
    expect([...onDisk].sort()).toEqual(Object.keys(ALLOWED).sort());
    for (const room of Object.keys(ALLOWED))
      expect(existsSync(join(SRC, room)) || existsSync(join(SRC, `${room}.ts`)), room).toBe(true);
  });

  it("has arrows, and they all point the allowed way", () => {
    expect(edges.length).toBeGreaterThan(100);
    expect(edges.filter(forbidden)).toEqual([]);
  });

  it("has an engine without packages, clock or chance", () => {
    const engine = all
      .filter((file) => roomOf(file) === "estimating")
      .map((file) => ({ file, source: readFileSync(file, "utf8") }));
    const packages = engine.flatMap(({ source }) => specifiers(source).filter((specifier) => !specifier.startsWith(".")));
    expect(packages).toEqual([]);
    const impure = /Date\.now|new Date\(\)|Math\.random|performance\.|crypto\.|process\.|globalThis|fetch\(|Intl\.|toLocale/;
    expect(engine.filter(({ source }) => impure.test(source)).map(({ file }) => relative(ROOT, file))).toEqual([]);
  });
});

describe("a planted import", () => {
  const planted = (file: string, source: string) => edgesOf(join(SRC, file), source).filter(forbidden);

  it.each([
    ["estimating/price.ts", 'import { money } from "../wording/money.js";'],
    ["estimating/parts/lot.ts", 'import type { Tongue } from "../../wording/tongue.js";'],
    ["wording/money.ts", 'export * from "../documents/estimatePdf.js";'],
    ["records/jobs.ts", 'import { page } from "../pages/frame/page.js";'],
    ["documents/estimatePdf.ts", 'const { jobs } = await import("../records/jobs.js");'],
    ["pages/sheet/order.tsx", 'import "../../http/app.js";'],
    ["pages/sheet/order.tsx", 'import assets from "../../../.built/assets.js";'],
    ["worker.ts", 'import { estimatePdf } from "./documents/estimatePdf.js";'],
    ["http/app.ts", 'import { start } from "../tools/start.js";'],
    ["http/app.ts", 'import { sheet } from "../../tests/estimating/cast/organ.js";'],
    ["attic/box.ts", 'import { estimate } from "../estimating/estimate.js";'],
  ])("is found in %s: %s", (file, source) => {
    expect(planted(file, source)).toHaveLength(1);
  });

  it("is not found where it is allowed", () => {
    expect(planted("wording/money.ts", 'import type { Minor } from "../estimating/input.js";')).toEqual([]);
    expect(planted("documents/font.ts", 'import { FONTS } from "../../.built/fonts.js";')).toEqual([]);
    expect(planted("estimating/price.ts", 'import { addUp } from "./totals/addUp.js";')).toEqual([]);
  });
});
