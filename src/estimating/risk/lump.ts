/** What may turn up: costs `labour` x C + `other` with `probability`, else nothing. C is the unit's condition factor. */
import { type Moments, momentsOf, sumOf } from "./cumulants.js";
import { type Line, lineOf } from "./line.js";
import type { Chance, FoundRisk } from "./model.js";
import { twoPoint } from "./twoPoint.js";

export interface Lump {
  readonly id: string;
  readonly probability: number;
  /** Under condition. */
  readonly labour: Moments;
  readonly lines: readonly Line[];
  /** Parts, and labour the condition does not touch. */
  readonly other: Moments;
  /** The same as few amounts: exact for up to 16 combinations of outcomes, else with the same three moments. */
  readonly otherChances: readonly Chance[];
}

const MOST_COMBINATIONS = 16;

export function lumpOf(found: FoundRisk): Lump {
  const steady: Line[] = [];
  const lines: Line[] = [];
  for (const risk of found.labour) (risk.underCondition ? lines : steady).push(lineOf(risk));
  let otherChances: readonly Chance[] = [{ probability: 1, amount: found.parts }];
  for (const { outcomes } of found.sourcing ?? []) otherChances = combined(otherChances, outcomes);
  if (steady.length > 0) otherChances = combined(otherChances, twoPoint(sumOf(steady)));
  return {
    id: found.id,
    probability: found.probability,
    labour: sumOf(lines),
    lines,
    other: momentsOf(otherChances),
    otherChances,
  };
}

/** The sum of two independent amounts. */
function combined(a: readonly Chance[], b: readonly Chance[]): readonly Chance[] {
  if (b.length === 0) return a;
  if (a.length * b.length > MOST_COMBINATIONS) return twoPoint(sumOf([momentsOf(a), momentsOf(b)]));
  return a.flatMap((one) =>
    b.map((other) => ({ probability: one.probability * other.probability, amount: one.amount + other.amount })),
  );
}
