/** One paper, the first of a process: `first.mjs MAKER FILE` tells the processor time of loading its library and of drawing. */
import { readFileSync } from "node:fs";
import { deserialize } from "node:v8";
import type { EstimateInput } from "../../../src/estimating/input.js";
import type { Sheet } from "../../../src/estimating/sheet.js";
import { DRAWERS, type Peer } from "./drawers.js";
import type { Drawn } from "./drawn.js";
import type { Fonts } from "./fonts.js";

export interface Given {
  readonly sheet: Sheet;
  readonly input: EstimateInput;
  readonly drawn: Drawn;
  readonly fonts: Fonts;
}
export interface First {
  readonly load: number;
  readonly draw: number;
}

const [maker, file] = process.argv.slice(2) as ["ours" | Peer, string];
const { sheet, input, drawn, fonts } = deserialize(readFileSync(file)) as Given;
const taken = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};
const began = taken();
const draw = maker === "ours" ? await ours() : await DRAWERS[maker](drawn, fonts);
const loaded = taken();
await draw();
const first: First = { load: loaded - began, draw: taken() - loaded };
console.log(JSON.stringify(first));

async function ours() {
  const { estimatePdf } = await import("../../../src/documents/estimatePdf.js");
  return () => estimatePdf(sheet, input);
}
