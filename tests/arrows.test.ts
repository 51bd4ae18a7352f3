/**
 * Who may import whom. estimating <- wording <- {documents, pages}; estimating <- records <- acts; wording <- acts; all <- http <- {worker, server, tools}.
 * Records, documents and pages never see one another. Inside a room its folders have arrows too, no files make a circle, and
 * nothing is exported that no file of the source uses. Type-only imports count, and so do imports of what the build makes.
 */
import { existsSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { circles } from "./house/circles.js";
import { unused } from "./house/exports.js";
import { type Import, importsOf, leadsSomewhere, type Source, SRC, sourcesIn, specifiers } from "./house/source.js";

type Arrows = Readonly<Record<string, readonly string[]>>;

/** For each room, the rooms it may import. `made by the build` is .built/: fonts for the documents, assets for the two entries. */
const ROOMS = {
  estimating: [],
  wording: ["estimating"],
  records: ["estimating"],
  acts: ["estimating", "wording", "records"],
  documents: ["estimating", "wording", "made by the build"],
  pages: ["estimating", "wording"],
  http: ["estimating", "wording", "records", "acts", "documents", "pages"],
  worker: ["http", "records", "made by the build"],
  server: ["http", "records", "made by the build"],
  tools: ["estimating", "wording", "records", "acts", "documents", "http", "server"],
} as const satisfies Arrows;

/**
 * For each folder of a room, the folders of that room it may import. `.` is the files beside the folders. A file listed by its name stands
 * for itself, beside the folders or in one: what others rest on, or what rests on all.
 */
const FOLDERS: Readonly<Record<string, Arrows>> = {
  estimating: {
    ".": [],
    law: ["."],
    money: ["."],
    teardown: ["."],
    risk: [".", "money"],
    totals: [".", "money"],
    labour: [".", "money", "teardown"],
    parts: [".", "labour", "money", "risk"],
    check: [".", "labour", "law", "money", "parts", "teardown"],
    pricing: [".", "check", "labour", "money", "parts", "risk", "teardown", "totals"],
    sheet: [".", "labour", "law", "money", "parts", "pricing", "teardown", "totals"],
    "estimate.ts": [".", "check", "sheet"],
    agreement: [".", "check", "estimate.ts", "law", "money", "pricing", "sheet", "totals"],
    closeout: [
      ...[".", "agreement", "check", "estimate.ts", "labour", "money", "parts", "pricing", "risk", "teardown", "totals"],
    ],
  },
  "estimating/closeout": {
    ".": [],
    log: [],
    "jobDone.ts": ["log"],
    actual: ["jobDone.ts", "log"],
    account: ["actual", "jobDone.ts", "log"],
    learning: [".", "actual", "log"],
    accuracy: [".", "learning"],
    variance: ["actual", "jobDone.ts", "log"],
  },
  wording: {
    "kept.ts": [],
    "figures.ts": ["kept.ts"],
    "list.ts": [],
    "time.ts": ["figures.ts", "kept.ts"],
    english: ["figures.ts", "list.ts", "time.ts"],
    "another language": ["english", "figures.ts", "list.ts", "time.ts"],
    ".": ["another language", "english", "figures.ts", "kept.ts", "list.ts", "time.ts"],
  },
  records: {
    ".": [],
    backup: ["."],
    "photoFiles.ts": [".", "backup"],
  },
  acts: {
    shapes: [],
    ".": ["shapes"],
    erasure: ["."],
    checked: [".", "erasure"],
  },
  documents: {
    picture: [],
    type: [],
    layout: ["type"],
    paper: ["layout", "picture", "type"],
    estimate: ["layout", "picture", "type"],
    bench: ["estimate", "layout", "type"],
    quotation: [],
    risk: ["estimate", "layout", "type"],
    ".": ["bench", "estimate", "layout", "paper", "picture", "quotation", "risk", "type"],
  },
  pages: {
    form: [],
    frame: [],
    ".": ["frame"],
    help: ["frame"],
    inOut: ["frame"],
    looking: ["frame"],
    reference: ["frame"],
    staff: ["frame"],
    owner: ["form", "frame"],
    revise: ["form", "frame", "owner"],
    sheet: ["form", "frame"],
    bench: ["form", "frame", "revise", "sheet"],
    closeout: ["form", "frame", "revise"],
    intake: ["form", "frame", "sheet"],
    parts: ["frame", "revise"],
    photos: ["frame", "revise"],
    shop: ["frame", "revise", "sheet"],
    models: ["form", "frame", "intake"],
    script: ["form", "intake"],
  },
  http: {
    ".": [],
    dataIn: [],
    problems: ["."],
    sending: ["."],
    doors: [".", "problems"],
    frame: [".", "problems"],
    photos: [".", "problems"],
    guard: [".", "frame", "problems"],
    papers: [".", "doors", "photos", "problems"],
    staff: [".", "doors", "frame", "guard", "problems"],
    owner: [".", "doors", "frame", "guard", "papers", "photos", "problems"],
    dataOut: ["owner"],
    api: [".", "dataIn", "dataOut", "doors", "papers", "photos", "problems", "sending"],
    site: [".", "api", "dataIn", "dataOut", "doors", "frame", "guard", "owner", "papers", "photos", "problems", "sending"],
    app: [".", "api", "guard", "owner", "problems", "site", "staff"],
  },
  tools: {
    "assets.ts": [],
    "demo.ts": [],
    "demoClosed.ts": ["demo.ts"],
    "demoYear.ts": ["demo.ts"],
    "migrateDatabase.ts": [],
    "wholeFile.ts": [],
    fonts: [],
    quote: [],
    verify: ["migrateDatabase.ts", "wholeFile.ts"],
    "firstShop.ts": ["demo.ts", "demoClosed.ts", "demoYear.ts"],
    "build.ts": ["assets.ts", "fonts"],
    backup: ["migrateDatabase.ts"],
    start: ["build.ts", "firstShop.ts", "migrateDatabase.ts", "wholeFile.ts"],
    ".": ["backup", "build.ts", "firstShop.ts", "migrateDatabase.ts", "quote", "start", "verify", "wholeFile.ts"],
  },
};

/** Circles that still stand, each as its files in order. The list only shrinks: a circle that is gone or smaller fails until it says so. */
const CIRCLES_LEFT: readonly string[] = [];

/** Files that the bundler puts in place of a package, or the compiler calls: who imports them is outside the source. */
const IN_PLACE_OF_A_PACKAGE = [
  "src/documents/paper/noCompression.ts",
  "src/documents/paper/noStandardFonts.ts",
  "src/documents/paper/pdfObjects.ts",
  "src/http/api/noCompiler.ts",
  "src/http/api/noJsonSchemaReader.ts",
  "src/http/staff/noCertificates.ts",
  "src/pages/frame/jsx-runtime.ts",
];

/** Rooms are folders of src; worker.ts and server.ts are rooms of one file. */
const roomOf = (file: string): string => {
  const [top, room] = file.split("/");
  if (top === ".built") return "made by the build";
  return top === "src" ? room!.replace(/\.(tsx?|js)$/, "") : `outside: ${file}`;
};

/** Within a room, or a folder, whose folders are listed. */
const folderOf = (room: string, file: string): string => {
  const path = file.slice(`src/${room}/`.length);
  if (Object.hasOwn(FOLDERS[room]!, path)) return path;
  const [folder, ...below] = path.split("/");
  // Every folder of words is a language, and is held to what English says; a new one is not listed.
  if (room === "wording" && below.length > 0 && folder !== "english") return "another language";
  return below.length > 0 ? folder! : ".";
};

interface Arrow extends Import {
  readonly from: string;
  readonly to: string;
}

const arrows = (imports: readonly Import[], placeOf: (file: string) => string): Arrow[] =>
  imports.map((each) => ({ ...each, from: placeOf(each.file), to: placeOf(each.of) })).filter(({ from, to }) => from !== to);

const between = (imports: readonly Import[]): Arrow[] => arrows(imports, roomOf);

const within = (imports: readonly Import[], room: string): Arrow[] =>
  arrows(
    imports.filter(({ file, of }) => file.startsWith(`src/${room}/`) && of.startsWith(`src/${room}/`)),
    (file) => folderOf(room, file),
  );

const unneeded = (table: Arrows, list: readonly Arrow[]): string[] =>
  Object.entries(table).flatMap(([from, to]) =>
    to.filter((each) => !list.some((arrow) => arrow.from === from && arrow.to === each)).map((each) => `${from} -> ${each}`),
  );

const forbidden = (table: Arrows, list: readonly Arrow[]): Arrow[] => list.filter(({ from, to }) => !table[from]?.includes(to));

describe("the house", () => {
  const sources = sourcesIn(SRC);
  const imports = sources.flatMap(importsOf).filter(leadsSomewhere);

  it("has every room that is listed, and no other", () => {
    const onDisk = new Set(sources.map(({ file }) => roomOf(file)));
    expect([...onDisk].sort()).toEqual(Object.keys(ROOMS).sort());
    for (const room of Object.keys(ROOMS))
      expect(existsSync(join(SRC, room)) || existsSync(join(SRC, `${room}.ts`)), room).toBe(true);
  });

  it("has arrows, and they all point the allowed way", () => {
    expect(between(imports).length).toBeGreaterThan(100);
    expect(forbidden(ROOMS, between(imports))).toEqual([]);
    expect(unneeded(ROOMS, between(imports))).toEqual([]);
  });

  describe.each(Object.entries(FOLDERS))("in its room %s", (room, table) => {
    it("has every folder that is listed, and no other", () => {
      const onDisk = sources.filter(({ file }) => file.startsWith(`src/${room}/`)).map(({ file }) => folderOf(room, file));
      expect([...new Set(onDisk)].sort()).toEqual(Object.keys(table).sort());
    });

    it("has arrows between folders, and they all point the allowed way", () => {
      expect(within(imports, room).length).toBeGreaterThan(0);
      expect(forbidden(table, within(imports, room))).toEqual([]);
    });

    it("has no arrow listed that no file needs", () => {
      expect(unneeded(table, within(imports, room))).toEqual([]);
    });

    it("has folders whose arrows make no circle", () => {
      expect(circles(within(imports, room).map(({ from, to }) => ({ file: from, of: to })))).toEqual([]);
    });
  });

  it("has no circles of files but those that still stand", () => {
    const found = circles(imports);
    expect(found.filter((circle) => !CIRCLES_LEFT.includes(circle))).toEqual([]);
    expect(CIRCLES_LEFT.filter((circle) => !found.includes(circle))).toEqual([]);
  });

  it("exports nothing that no file of the source uses", () => {
    expect(unused(sources.filter(({ file }) => !IN_PLACE_OF_A_PACKAGE.includes(file)))).toEqual([]);
  });

  it("has an engine without packages, clock or chance", () => {
    const engine = sources.filter(({ file }) => roomOf(file) === "estimating");
    const packages = engine.flatMap(({ text }) => specifiers(text).filter((specifier) => !specifier.startsWith(".")));
    expect(packages).toEqual([]);
    const impure = /Date\.now|new Date\(\)|Math\.random|performance\.|crypto\.|process\.|globalThis|fetch\(|Intl\.|toLocale/;
    expect(engine.filter(({ text }) => impure.test(text)).map(({ file }) => file)).toEqual([]);
  });
});

const planted = (...texts: readonly (readonly [file: string, text: string])[]): Source[] =>
  texts.map(([file, text]) => ({ file: `src/${file}`, text }));

describe("a planted import", () => {
  const found = (file: string, text: string) => forbidden(ROOMS, between(planted([file, text]).flatMap(importsOf)));

  it.each([
    ["estimating/price.ts", 'import { money } from "../wording/money.js";'],
    ["estimating/parts/lot.ts", 'import type { Tongue } from "../../wording/tongue.js";'],
    ["wording/money.ts", 'export * from "../documents/estimatePdf.js";'],
    ["records/jobs.ts", 'import { page } from "../pages/frame/page.js";'],
    ["documents/estimatePdf.ts", 'const { jobs } = await import("../records/jobs.js");'],
    ["pages/sheet/order.tsx", 'import "../../http/app/app.js";'],
    ["pages/sheet/order.tsx", 'import assets from "../../../.built/assets.js";'],
    ["worker.ts", 'import { estimatePdf } from "./documents/estimatePdf.js";'],
    ["http/app/app.ts", 'import { start } from "../../tools/start.js";'],
    ["http/app/app.ts", 'import { sheet } from "../../../tests/estimating/cast/organ.js";'],
    ["attic/box.ts", 'import { estimate } from "../estimating/estimate.js";'],
  ])("is found in %s: %s", (file, text) => {
    expect(found(file, text)).toHaveLength(1);
  });

  it("is not found where it is allowed", () => {
    expect(found("wording/money.ts", 'import type { Minor } from "../estimating/input.js";')).toEqual([]);
    expect(found("documents/font.ts", 'import { FONTS } from "../../.built/fonts.js";')).toEqual([]);
    expect(found("estimating/price.ts", 'import { addUp } from "./totals/addUp.js";')).toEqual([]);
  });
});

describe("a planted import between folders", () => {
  const found = (room: string, file: string, text: string) =>
    forbidden(FOLDERS[room]!, within(planted([`${room}/${file}`, text]).flatMap(importsOf), room));

  it.each([
    ["estimating", "parts/lot.ts", 'import type { Workings } from "../pricing/workings.js";'],
    ["estimating", "sheet.ts", 'import type { Buy } from "./parts/buyPlan.js";'],
    ["estimating", "sheet/terms.ts", 'import { estimate } from "../estimate.js";'],
    ["estimating/closeout", "jobDone.ts", 'export * from "./account/finalAccount.js";'],
    ["records", "jobs.ts", 'import { dump } from "./backup/dump.js";'],
    ["acts", "shapes/parts.ts", 'import { field } from "../field.js";'],
    ["documents", "layout/block.ts", 'import type { Pen } from "../paper/pen.js";'],
    ["documents", "picture/crop.ts", 'export * from "../estimatePdf.js";'],
    ["pages", "frame/field.tsx", 'import { IntakePage } from "../intake/intakePage.js";'],
    ["pages", "revise/jobPage.tsx", 'import type { Row } from "../shop/jobsPage.js";'],
    ["http", "guard/gate.ts", 'import { come } from "../staff/comeIn.js";'],
    ["http", "doors/api.ts", 'import { bench } from "../api/bench.js";'],
    ["http", "owner/show.tsx", 'import { intake } from "../site/intake.js";'],
    ["http", "doors/router.ts", 'export * from "../api/bench.js";'],
    ["http", "sending/send.ts", 'import { refuse } from "../problems/refuse.js";'],
    ["documents", "attic/box.ts", 'import { block } from "../layout/block.js";'],
    ["documents", "layout/block.ts", 'import { box } from "../attic/box.js";'],
  ])("of %s is found in %s: %s", (room, file, text) => {
    expect(found(room, file, text)).toHaveLength(1);
  });

  it("is not found where it is allowed", () => {
    expect(found("documents", "estimatePdf.ts", 'import { head } from "./estimate/head.js";')).toEqual([]);
    expect(found("estimating", "sheet/terms.ts", 'import type { Sheet } from "../sheet.js";')).toEqual([]);
    expect(found("http", "guard/gate.ts", 'import { holdForm } from "../frame/held.js";')).toEqual([]);
    expect(found("documents", "layout/row.ts", 'import { cell } from "./cell.js";')).toEqual([]);
  });
});

describe("a planted circle", () => {
  const found = (...texts: readonly (readonly [file: string, text: string])[]) => circles(planted(...texts).flatMap(importsOf));

  it("is found, by types too, and however long", () => {
    const [a, b, c] = ["attic/a.ts", "attic/b.ts", "attic/c.ts"] as const;
    expect(found([a, 'import type { B } from "./b.ts";'], [b, 'export * from "./a.ts";'])).toEqual([
      "src/attic/a.ts src/attic/b.ts",
    ]);
    expect(found([a, 'import "./b.ts";'], [b, 'import "./c.ts";'], [c, 'await import("./a.ts")'])).toHaveLength(1);
    expect(found([a, 'import "./a.ts";'])).toHaveLength(1);
  });

  it("is not found where files only meet", () => {
    const both = 'import "./c.ts";';
    expect(found(["attic/a.ts", both], ["attic/b.ts", `${both} import "./a.ts";`], ["attic/c.ts", ""])).toEqual([]);
  });
});

describe("a planted export", () => {
  const ours = (text: string, other: string) => unused(planted(["attic/box.ts", text], ["attic/user.ts", other]));

  it.each([
    ["export const box = 1;", 'import { lid } from "./box.ts";'],
    ["export interface Box {}", 'import type { Lid } from "./box.ts";'],
    ["export async function box(): void {}", "/** Like a box. */"],
    ['export { box } from "./lid.ts";', ""],
    ["/** A box. */ \nexport const box = 1; // box", ""],
  ])("is found in %s beside %s", (text, other) => {
    expect(ours(text, other)).toHaveLength(1);
  });

  it.each([
    ["export const box = 1;", 'import { lid, box as kept } from "./box.ts";'],
    ["export interface Box {}", 'import { type Box, lid } from "./box.ts";'],
    ["export const box = 1;", 'import * as all from "./box.ts";'],
    ["export const box = 1;", 'const { box } = await import("./box.ts");'],
    ["export const box = 1; const lid = { ...box };", ""],
    ["const written = `\nexport const box = 1;\n`;", ""],
  ])("is not found in %s beside %s", (text, other) => {
    expect(ours(text, other)).toEqual([]);
  });
});
