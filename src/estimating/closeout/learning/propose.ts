/** What a rate book should say after the jobs observed. Without observations there is nothing to propose. */
import type { IsoDate, RateBook } from "../../input.js";
import { BOOK_PIECES } from "../../parts/shareGood.js";
import { type GradeBelief, predictedQuantile, type Strength, USUAL_STRENGTH } from "./belief.js";
import { learn } from "./learn.js";
import type { Observation } from "./observation.js";
import { acceptProposals, type Change, type Proposal, type Taken } from "./proposal.js";
import { type GoodsIn, sharesGood } from "./shareGood.js";
import { standardId, timesOf } from "./standard.js";
import { expected, type StandardBelief } from "./standardBelief.js";
import { moved, moveTo } from "./threePoint.js";

interface Learning {
  readonly strength?: Strength;
  /** Jobs below which a standard is left alone. */
  readonly fewestJobs?: number;
  readonly received?: readonly GoodsIn[];
}

interface ProposedRateBook {
  readonly proposals: readonly Proposal[];
  /** The next version with the proposals of these ids; the book itself does not change. */
  readonly apply: (accepted: Iterable<string>, inForceFrom: IsoDate, note?: (proposal: Proposal) => string) => RateBook;
}

const FEWEST_JOBS = 3;

/**
 * Low, likely and high are moved so that the beta-PERT they stand for has the mean and the log variance that the posterior predicts
 * for the next such piece of work (on a unit of average condition), and keep their skew: the logs of low/likely and high/likely are
 * stretched alike. With no observations they would not move; each observation moves them towards itself.
 */
export function proposeRateBook(
  rateBook: RateBook,
  observations: readonly Observation[],
  { strength = USUAL_STRENGTH, fewestJobs = FEWEST_JOBS, received = [] }: Learning = {},
): ProposedRateBook {
  const { standards, grades, standardWithout, gradeWithout } = learn(observations, rateBook, strength);
  const enough = ({ jobs }: { readonly jobs: number }) => jobs >= fewestJobs;
  const proposals = [
    ...[...standards]
      .filter(([, belief]) => enough(belief))
      .map(([id, belief]) => aboutTimes(belief, rateBook, standardWithout(id), fewestJobs)),
    ...[...grades.values()].filter(enough).map((grade) => aboutGrade(grade, rateBook, strength, gradeWithout(grade.id))),
    ...aboutShares(received, rateBook),
  ].filter(({ changes }) => changes.length > 0);
  return { proposals, apply: (accepted, from, note) => acceptProposals(rateBook, proposals, accepted, from, note) };
}

export function taken({ belief }: Pick<StandardBelief, "belief">): Taken {
  const at = (p: number) => Math.exp(predictedQuantile(belief, p));
  return { p10: at(0.1), p50: at(0.5), p80: at(0.8), p90: at(0.9) };
}

/** New times of a standard; those that do not change at the thousandth of a minute are left out. */
export function changesOfTimes(belief: StandardBelief, rateBook: RateBook): Change[] {
  const move = moveTo(belief.reference, expected(belief));
  return timesOf(belief.standard, rateBook)
    .map(({ pointer, time }) => ({ pointer, was: time, proposed: moved(time, move) }))
    .filter(({ was, proposed }) => was.low !== proposed.low || was.likely !== proposed.likely || was.high !== proposed.high);
}

function aboutTimes(all: StandardBelief, rateBook: RateBook, without: LearntTimes, fewestJobs: number): Proposal {
  const wild = misleading(all, without);
  const belief = wild?.belief ?? all;
  const minutes = (of: StandardBelief) => expected(of).mean;
  const most = wild ?? movedMost(without, (other) => Math.abs(Math.log(minutes(other) / minutes(all))));
  return {
    id: standardId(belief.standard),
    standard: belief.standard,
    changes: belief.jobs < fewestJobs ? [] : changesOfTimes(belief, rateBook),
    observations: belief.observations,
    jobs: belief.jobs,
    weight: 1 - belief.prior.k / belief.belief.k,
    taken: taken(belief),
    ...(most && {
      most: { job: most.job, changes: changesOfTimes(most.belief, rateBook), ...(wild && { leftOut: true as const }) },
    }),
  };
}

type LearntTimes = readonly (Learnt<StandardBelief>[number] & { readonly off: number })[];

/** In deviations from what is believed without it: one such job in eighty is no wild one. */
const WILD = 2.5;

/**
 * A wild job widens the spread too, and of a wider spread with the same mean the likely time, its mode, is less. Where that outweighs what
 * the job took, so that with it the likely time moves away from it, the one that moves it furthest.
 */
function misleading(all: StandardBelief, without: LearntTimes): LearntTimes[number] | undefined {
  const likely = (of: StandardBelief) => Math.log(moveTo(of.reference, expected(of)).factor);
  const against = ({ belief, off }: LearntTimes[number]) => (likely(belief) - likely(all)) * Math.sign(off);
  return without.filter((each) => Math.abs(each.off) > WILD && against(each) > 0).toSorted((a, b) => against(b) - against(a))[0];
}

type Learnt<Kind> = readonly { readonly job: string; readonly belief: Kind }[];

const movedMost = <Kind>(without: Learnt<Kind>, by: (belief: Kind) => number): Learnt<Kind>[number] | undefined =>
  without.toSorted((a, b) => by(b.belief) - by(a.belief))[0];

function aboutGrade(grade: GradeBelief, rateBook: RateBook, strength: Strength, without: Learnt<GradeBelief>): Proposal {
  const { id, name, jobs } = grade;
  const standard = { is: "grade", id, name } as const;
  const most = movedMost(without, ({ factor, cv }) => Math.abs(Math.log(factor / grade.factor)) + Math.abs(cv - grade.cv));
  return {
    id: standardId(standard),
    standard,
    changes: changesOfGrade(grade, rateBook),
    observations: jobs,
    jobs,
    weight: jobs / (jobs + strength.mean),
    ...(most && { most: { job: most.job, changes: changesOfGrade(most.belief, rateBook) } }),
  };
}

function changesOfGrade({ id, labourPercent, factor, bookCv, cv }: GradeBelief, rateBook: RateBook): Change[] {
  const at = rateBook.grades.findIndex((grade) => grade.id === id);
  const tenths = (value: number) => Math.round(value * 10) / 10;
  const change = (field: string, was: number, proposed: number): Change[] =>
    was === proposed ? [] : [{ pointer: `/grades/${at}/${field}`, was, proposed }];
  return [
    ...(factor === 1 ? [] : change("labourPercent", labourPercent, tenths(labourPercent * factor))),
    ...change("spreadPercent", tenths(bookCv * 100), tenths(cv * 100)),
  ];
}

const aboutShares = (received: readonly GoodsIn[], rateBook: RateBook): Proposal[] =>
  sharesGood(received, rateBook)
    .filter(({ source, state }) => source === undefined && state !== "new" && state !== "reproduction")
    .map(({ state, pieces, book, share }) => {
      const standard = { is: "share good", state } as const;
      const proposed = Math.max(0.001, Math.round(share * 1000) / 1000);
      return {
        id: standardId(standard),
        standard,
        changes: proposed === book ? [] : [{ pointer: `/scarcity/shareGood/${state}`, was: book, proposed }],
        observations: pieces,
        jobs: 0,
        weight: pieces / (pieces + BOOK_PIECES),
      };
    });
