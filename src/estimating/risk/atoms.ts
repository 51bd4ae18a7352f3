/** A total that can only take few values (no spread of labour, no condition factor), listed exactly. */
import { type Algebra, type Cluster, type Cost, summed } from "./cluster.js";
import type { Chance } from "./model.js";
import type { Terms } from "./terms.js";

/** More different totals than this go to the lattice. */
const MOST = 4096;

/** Ascending by amount, different amounts; undefined when the total is not a short list. */
export function atomsOf(terms: Terms): readonly Chance[] | undefined {
  const smooth = terms.cv > 0 || terms.lines.length > 0 || terms.steady.length > 0;
  const costs = [...terms.lumps, ...terms.clusters.flatMap(({ lumps, shared }) => [...lumps, ...shared])];
  if (smooth || costs.some((cost) => cost.lines.some((line) => line.variance > 0))) return undefined;
  let atoms: readonly Chance[] = [{ probability: 1, amount: terms.fixed }];
  const choices: (readonly Chance[])[] = terms.draws.map((draw) => draw.outcomes);
  for (const lump of terms.lumps) choices.push(LISTS.found([lump]));
  for (const cluster of terms.clusters) {
    const list = listOf(cluster);
    if (list === undefined) return undefined;
    choices.push(list);
  }
  for (const choice of choices) {
    if (atoms.length * choice.length > 64 * MOST) return undefined;
    atoms = LISTS.both(atoms, choice);
    if (atoms.length > MOST) return undefined;
  }
  return atoms;
}

/** Of a cluster with more sets than this nothing is listed. */
const MOST_LUMPS = 12;

const listOf = (cluster: Cluster): readonly Chance[] | undefined =>
  cluster.lumps.length > MOST_LUMPS ? undefined : merged(summed(cluster, LISTS)).filter(({ probability }) => probability > 1e-15);

const costsOf = ({ labour, otherChances }: Cost): readonly Chance[] =>
  otherChances.map(({ probability, amount }) => ({ probability, amount: labour.mean + amount }));

const weighed = (list: readonly Chance[], weight: number): readonly Chance[] =>
  list.map(({ probability, amount }) => ({ probability: weight * probability, amount }));

const LISTS: Algebra<readonly Chance[]> = {
  nothing: [{ probability: 1, amount: 0 }],
  amount: (amount) => [{ probability: 1, amount }],
  both: (a, b) =>
    merged(
      a.flatMap((one) =>
        b.map(({ probability, amount }) => ({ probability: one.probability * probability, amount: one.amount + amount })),
      ),
    ),
  mix: (a, x, b, y) => merged([...weighed(a, x), ...weighed(b, y)]),
  cost: costsOf,
  found: (lumps) =>
    lumps.reduce<readonly Chance[]>(
      (sum, lump) =>
        LISTS.both(sum, [{ probability: 1 - lump.probability, amount: 0 }, ...weighed(costsOf(lump), lump.probability)]),
      [{ probability: 1, amount: 0 }],
    ),
};

/** Amounts closer than this, in minor units, are one amount. */
const SAME = 1e-6;

function merged(atoms: readonly Chance[]): readonly Chance[] {
  const out: { probability: number; amount: number }[] = [];
  for (const atom of [...atoms].sort((a, b) => a.amount - b.amount)) {
    if (atom.probability === 0) continue;
    const last = out[out.length - 1];
    if (last !== undefined && atom.amount - last.amount < SAME) last.probability += atom.probability;
    else out.push({ ...atom });
  }
  return out;
}
