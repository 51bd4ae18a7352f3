/** Standards that go differently on one model: the shop's own belief is the prior, so a model moves away from it only by its own jobs. */
import type { RateBook } from "../../input.js";
import { beliefWith, predictedVariance, type Strength, USUAL_STRENGTH } from "./belief.js";
import { evidenceFrom } from "./evidence.js";
import { learn } from "./learn.js";
import type { Observation } from "./observation.js";
import type { Change, Taken } from "./proposal.js";
import { changesOfTimes, taken } from "./propose.js";
import type { Standard } from "./standard.js";
import { standardBeliefs } from "./standardBelief.js";

export interface ModelFinding {
  readonly model: string;
  readonly standard: Standard;
  readonly observations: number;
  readonly jobs: number;
  /** On this model, and over all of the shop's jobs, in units of the book's likely minutes. */
  readonly taken: Taken;
  readonly inShop: Taken;
  /** What the standard would be for this model alone: for a work item's own minutes, or a measured access. Not for the rate book. */
  readonly times: readonly Change[];
}

const FEWEST_JOBS = 5;

/** Models with enough jobs, those that differ most from the shop first. */
export function modelFindings(
  rateBook: RateBook,
  observations: readonly Observation[],
  { strength = USUAL_STRENGTH, fewestJobs = FEWEST_JOBS }: { readonly strength?: Strength; readonly fewestJobs?: number } = {},
): ModelFinding[] {
  const shop = learn(observations, rateBook, strength);
  const byModel = new Map<string, Observation[]>();
  for (const observation of observations) {
    const own = byModel.get(observation.model);
    if (own) own.push(observation);
    else byModel.set(observation.model, [observation]);
  }
  const priorOf = (id: string) => {
    const belief = shop.standards.get(id)!.belief;
    return beliefWith(belief.mean, predictedVariance(belief), strength.mean, strength.spread);
  };
  const off = ({ taken: own, inShop }: ModelFinding) => Math.abs(Math.log(own.p50 / inShop.p50));
  return [...byModel]
    .flatMap(([model, own]) =>
      [...standardBeliefs(evidenceFrom(own, shop.grades, strength), shop.grades, priorOf)]
        .filter(([, { jobs }]) => jobs >= fewestJobs)
        .map(
          ([id, belief]): ModelFinding => ({
            model,
            standard: belief.standard,
            observations: belief.observations,
            jobs: belief.jobs,
            taken: taken(belief),
            inShop: taken(shop.standards.get(id)!),
            times: changesOfTimes(belief, rateBook),
          }),
        ),
    )
    .sort((a, b) => off(b) - off(a));
}
