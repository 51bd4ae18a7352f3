/** A process that lives so many seeds from one on: `lane.ts FROM SEEDS STEP`. It tells each find as a line of JSON, and at the end what was done. */
import { counting, type Lived, lived } from "./life.js";

const [from = 1, seeds = 1, step = 1] = process.argv.slice(2).map(Number);
const EVERY = 20;

const tell = (line: object) => process.stdout.write(`${JSON.stringify(line)}\n`);

export interface Told extends Omit<Lived, "each" | "sendings"> {
  readonly each: readonly (readonly [string, { done: number; refused: number }])[];
  readonly sendings: readonly (readonly [string, number])[];
}

let into = counting();
for (let nth = 0; nth < seeds; nth += 1) {
  await lived(from + nth * step, into);
  if ((nth + 1) % EVERY === 0 || nth === seeds - 1) {
    tell({ ...into, each: [...into.each], sendings: [...into.sendings] } satisfies Told);
    into = counting();
  }
}
