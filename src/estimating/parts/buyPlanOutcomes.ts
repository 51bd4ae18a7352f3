/**
 * What a plan may come to. When m pieces are short, m good ones are reordered: from what is left of the offers, whichever is cheapest for the m / share pieces
 * that takes on average, in whole packs; when no offer has that many left, at the dearest offer's price for a good piece, since it must be found elsewhere.
 * The reorder pays its freight again and is taken to succeed.
 */
import type { Minor } from "../input.js";
import type { Chance } from "../risk/model.js";
import { type Choice, packsFor, type Reorder, reorderFrom, type Take } from "./buyPlanTakes.js";
import { none, together } from "./shareGood.js";

export interface Taken {
  readonly choice: Choice;
  readonly take: Take;
}

/** Shortages rarer than this are counted with the largest that is not. */
const RARE = 1e-7;

export interface PlanOutcomes {
  readonly probability: number;
  readonly outcomes: readonly Chance[];
  readonly reorderDays: number;
}

export const outcomesOf = (taken: readonly Taken[], goal: number, lot: number, spend: Minor): PlanOutcomes =>
  outcomesAt(
    taken.reduce((sum, { take }) => (take.pieces > 0 ? together(sum, take.masses()) : sum), none(goal)),
    taken,
    lot,
    spend,
  );

/** `masses`: of good pieces among all that is taken. */
function outcomesAt(masses: Float64Array, taken: readonly Taken[], lot: number, spend: Minor): PlanOutcomes {
  const goal = masses.length - 1;
  const probability = Math.min(1, masses[goal]!);
  const outcomes: { probability: number; amount: number }[] = [{ probability, amount: spend }];
  let reorderDays = 0;
  for (let short = 1; short <= goal; short++) {
    const chance = masses[goal - short]!;
    const last = outcomes[outcomes.length - 1]!;
    if (chance < RARE) {
      last.probability += chance;
      continue;
    }
    const reorder = reorderOf(taken, short * lot);
    reorderDays = Math.max(reorderDays, reorder.days);
    if (spend + reorder.spend === last.amount) last.probability += chance;
    else outcomes.push({ probability: chance, amount: spend + reorder.spend });
  }
  return { probability, outcomes: outcomes.filter((outcome) => outcome.probability > 0), reorderDays };
}

/** What is spent on average. */
export const expectedSpend = (outcomes: readonly Chance[]): number =>
  outcomes.reduce((sum, outcome) => sum + outcome.probability * outcome.amount, 0);

export const expectedAt = (masses: Float64Array, taken: readonly Taken[], lot: number, spend: Minor): number =>
  expectedSpend(outcomesAt(masses, taken, lot, spend).outcomes);

function reorderOf(taken: readonly Taken[], short: number): Reorder {
  const left = taken.flatMap(({ choice: { offer }, take }) => {
    const packs = packsFor(offer, short);
    const pieces = packs * offer.packSize;
    return take.pieces + pieces <= (offer.available ?? Number.POSITIVE_INFINITY) ? [reorderFrom(offer, packs)] : [];
  });
  if (left.length > 0) return left.reduce((a, b) => (b.spend < a.spend ? b : a));
  return taken
    .map(({ choice: { offer } }) => reorderFrom(offer, packsFor(offer, short)))
    .reduce((a, b) => (b.spend > a.spend ? b : a));
}
