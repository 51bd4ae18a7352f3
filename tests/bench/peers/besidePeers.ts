/** Our whole paper beside other libraries that only draw its lines: processor time of a call, warm, and of the first in a process. */
import { execFileSync } from "node:child_process";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { serialize } from "node:v8";
import { build } from "esbuild";
import { estimatePdf } from "../../../src/documents/estimatePdf.js";
import { pricedWithRisk, sixtyWorks } from "../office/workbook.js";
import { perCall } from "../perCall.js";
import { DRAWERS, type Draw, type Peer } from "./drawers.js";
import { drawnOf } from "./drawn.js";
import type { First, Given } from "./first.js";
import { cutFonts, wholeFonts } from "./fonts.js";

interface PeerRow {
  readonly maker: "ours" | Peer;
  readonly font: "whole" | "cut";
  readonly bytes: number;
  /** Processor time, ms. */
  readonly warm: number;
  readonly first: First;
}

const PROCESSES = 5;

export async function besidePeers(): Promise<PeerRow[]> {
  const input = sixtyWorks();
  const sheet = pricedWithRisk(input);
  const { bytes } = await estimatePdf(sheet, input);
  const drawn = await drawnOf(bytes);
  const whole = await wholeFonts();
  const outdir = ".built/bench/peers";
  await build({
    entryPoints: ["tests/bench/peers/first.ts"],
    ...{ outdir, bundle: true, splitting: true, platform: "node", format: "esm", packages: "external" },
    outExtension: { ".js": ".mjs" },
  });
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-peers-"));
  const rows: PeerRow[] = [];
  try {
    for (const [font, fonts] of [["cut", await cutFonts(whole, drawn)] as const, ["whole", whole] as const]) {
      const file = join(folder, font);
      const given: Given = { sheet, input, drawn, fonts };
      await writeFile(file, serialize(given));
      const row = async (maker: PeerRow["maker"], draw: Draw) => {
        const { length } = await draw();
        const all = Array.from({ length: PROCESSES }, () => firstOf(`${outdir}/first.mjs`, maker, file));
        const first = all.reduce((best, one) => (one.load + one.draw < best.load + best.draw ? one : best));
        rows.push({ maker, font, bytes: length, warm: (await perCall(draw)).cpu, first });
      };
      if (font === "cut") await row("ours", everyOther(sheet, input));
      for (const [maker, drawer] of Object.entries(DRAWERS)) await row(maker as Peer, await drawer(drawn, fonts));
    }
  } finally {
    await rm(folder, { recursive: true });
  }
  return rows;
}

/** Its link differs from call to call, as between jobs: a paper is not helped by the square code of the one before. */
function everyOther(sheet: Given["sheet"], input: Given["input"]): Draw {
  const { paperwork = {} } = input;
  const two = ["first", "other"].map((end) => ({ ...input, paperwork: { ...paperwork, link: `${paperwork.link}/${end}` } }));
  let turn = 0;
  return async () => (await estimatePdf(sheet, two[turn++ % 2]!)).bytes;
}

const firstOf = (script: string, maker: string, file: string): First =>
  JSON.parse(execFileSync(process.execPath, [script, maker, file]).toString()) as First;
