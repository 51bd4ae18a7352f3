/** A total that can only take few values (no spread of labour, no condition factor), listed exactly. */
import type { Chance } from "./model.js";
import type { Terms } from "./terms.js";

/** More different totals than this go to the lattice. */
const MOST = 4096;

/** Ascending by amount, different amounts; undefined when the total is not a short list. */
export function atomsOf(terms: Terms): readonly Chance[] | undefined {
  const smooth = terms.cv > 0 || terms.lines.length > 0 || terms.steady.length > 0;
  if (smooth || terms.lumps.some((lump) => lump.lines.some((line) => line.variance > 0))) return undefined;
  let atoms: readonly Chance[] = [{ probability: 1, amount: terms.fixed }];
  const choices: (readonly Chance[])[] = terms.draws.map((draw) => draw.outcomes);
  for (const { probability, labour, otherChances } of terms.lumps)
    choices.push([
      { probability: 1 - probability, amount: 0 },
      ...otherChances.map((chance) => ({ probability: probability * chance.probability, amount: labour.mean + chance.amount })),
    ]);
  for (const choice of choices) {
    atoms = merged(
      atoms.flatMap((atom) =>
        choice.map(({ probability, amount }) => ({
          probability: atom.probability * probability,
          amount: atom.amount + amount,
        })),
      ),
    );
    if (atoms.length > MOST) return undefined;
  }
  return atoms;
}

/** Amounts closer than this, in minor units, are one amount. */
const SAME = 1e-6;

function merged(atoms: readonly Chance[]): readonly Chance[] {
  const out: { probability: number; amount: number }[] = [];
  for (const atom of [...atoms].sort((a, b) => a.amount - b.amount)) {
    if (atom.probability <= 0) continue;
    const last = out[out.length - 1];
    if (last !== undefined && atom.amount - last.amount < SAME) last.probability += atom.probability;
    else out.push({ ...atom });
  }
  return out;
}
