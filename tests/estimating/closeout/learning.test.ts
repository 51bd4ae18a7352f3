/** Sources beside the figures in fixtures/published/closeout-accuracy.json. */
import fc from "fast-check";
import { jStat } from "jstat";
import { describe, expect, it } from "vitest";
import published from "../../../fixtures/published/closeout-accuracy.json";
import {
  type Belief,
  beliefWith,
  predictedQuantile,
  predictedVariance,
  updated,
} from "../../../src/estimating/closeout/learning/belief.js";
import { modelFindings } from "../../../src/estimating/closeout/learning/modelFindings.js";
import { type Observation, observationsOf } from "../../../src/estimating/closeout/learning/observation.js";
import type { Change } from "../../../src/estimating/closeout/learning/proposal.js";
import { proposeRateBook } from "../../../src/estimating/closeout/learning/propose.js";
import { robustlyUpdated } from "../../../src/estimating/closeout/learning/robustFit.js";
import { sharesGood } from "../../../src/estimating/closeout/learning/shareGood.js";
import { moved, moveTo, shapeOf } from "../../../src/estimating/closeout/learning/threePoint.js";
import type { WorkLog } from "../../../src/estimating/closeout/log/workLog.js";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput, RateBook, ThreePoint } from "../../../src/estimating/input.js";
import { runs } from "../../setup/runs.js";
import { ORGAN } from "../cast/organ.js";
import { about, PLAIN } from "../cast/plainBook.js";
import { normals, seeded } from "../risk/simulation.js";
import { INPUT, minutes, sheetOf } from "./done.js";

const whole = (x: number) => ({ x, weight: 1 });

describe("a belief", () => {
  const { prior, minutes: seen, posterior } = published.learning;
  const before: Belief = { mean: Math.log(prior.medianMinutes), k: prior.k, a: prior.a, b: prior.b };
  const after = updated(before, seen.map(Math.log).map(whole));

  it("is updated as in the case worked by hand", () => {
    expect(after.mean).toBeCloseTo(posterior.mean, 7);
    expect(Math.exp(after.mean)).toBeCloseTo(posterior.medianMinutes, 6);
    expect([after.k, after.a]).toEqual([posterior.k, posterior.a]);
    expect(after.b).toBeCloseTo(posterior.b, 7);
    expect(Math.exp(predictedQuantile(after, 0.8))).toBeCloseTo(posterior.p80, 5);
    expect(Math.exp(predictedQuantile(after, 0.95))).toBeCloseTo(posterior.p95, 5);
  });
  it("predicts by Student's t, as jstat has it", () => {
    for (const p of [0.1, 0.5, 0.8, 0.9]) {
      const wanted = posterior.mean + posterior.scale * jStat.studentt.inv(p, 2 * posterior.a);
      expect(predictedQuantile(after, p)).toBeCloseTo(wanted, 6);
    }
  });
  it("is the same whether it learns all at once or one by one, in any order", () => {
    const figures = fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(figures, (xs) => {
        const once = updated(before, xs.map(whole));
        const step = xs.toReversed().reduce((belief, x) => updated(belief, [whole(x)]), before);
        for (const field of ["mean", "k", "a", "b"] as const) expect(step[field]).toBeCloseTo(once[field], 9);
      }),
    );
  });
  it("moves towards what is seen, further the more is seen, and never past it", () => {
    fc.assert(
      fc.property(fc.double({ min: -4, max: 8, noNaN: true }), fc.integer({ min: 1, max: 300 }), (x, n) => {
        const gap = (count: number) =>
          Math.abs(
            updated(
              before,
              Array.from({ length: count }, () => whole(x)),
            ).mean - x,
          );
        expect(gap(n)).toBeLessThanOrEqual(Math.abs(before.mean - x));
        expect(gap(n + 1)).toBeLessThanOrEqual(gap(n));
        expect(gap(n)).toBeCloseTo((Math.abs(before.mean - x) * before.k) / (before.k + n), 9);
      }),
    );
  });
  it("stays as it was without observations, and predicts what it was made to", () => {
    expect(updated(before, [])).toEqual(before);
    expect(predictedVariance(beliefWith(2, 0.3, 4, 3))).toBeCloseTo(0.3, 12);
  });
});

describe("a belief that one wild observation does not move much", () => {
  /** Determinations of copper in flour (Analytical Methods Committee, Analyst 114, 1989; values from memory), of which one is wild. */
  const copper = [
    ...[2.9, 3.1, 3.4, 3.4, 3.7, 3.7, 2.8, 2.5, 2.4, 2.4, 2.7, 2.2, 5.28, 3.37, 3.03, 3.03, 28.95, 3.77, 3.4, 2.2, 3.5, 3.6],
    ...[3.7, 3.7],
  ];
  it("finds Huber's centre of the copper in flour at a known spread, 3.2067 where the mean is 4.2804", () => {
    // A book that is certain of the spread, 1.4826 times the median distance to the median, and of nothing else.
    const [n, a] = [copper.length, 1e9];
    const known: Belief = { mean: 0, k: 1e-9, a, b: (a * 0.526323 ** 2 * n) / (n + 1) };
    expect(robustlyUpdated(known, copper.map(whole)).mean).toBeCloseTo(3.206724, 4);
    expect(updated(known, copper.map(whole)).mean).toBeCloseTo(4.280417, 4);
  });
  it("is believed as before from data of which none is wild", () => {
    const z = Array.from({ length: 400 }, (_, at) => jStat.normal.inv((at + 0.5) / 400, 0, 1));
    for (const [n, sigma] of [
      [12, 0.25],
      [40, 0.4],
      [400, 0.3],
    ] as const) {
      const data = Array.from({ length: n }, (_, at) => whole(0.2 + sigma * z[Math.floor(((at + 0.5) * 400) / n)]!));
      const prior = beliefWith(0, 0.09, 4, 3);
      const [plain, robust] = [updated(prior, data), robustlyUpdated(prior, data)];
      expect(Math.abs(robust.mean - plain.mean)).toBeLessThan(0.01);
      expect(Math.abs(Math.sqrt(predictedVariance(robust) / predictedVariance(plain)) - 1)).toBeLessThan(n < 20 ? 0.1 : 0.05);
    }
  });
  it("is not moved further by the wildest than by one at the edge, and its spread by less than a quarter", () => {
    const jobs = fc.tuple(fc.integer({ min: 8, max: 60 }), fc.double({ min: 0.15, max: 0.35, noNaN: true }), fc.integer());
    fc.assert(
      fc.property(jobs, fc.constantFrom(-1, 1), ([n, sigma, seed], way) => {
        const normal = normals(seeded(seed));
        const data = Array.from({ length: n }, () => sigma * normal());
        const prior = beliefWith(0, sigma * sigma, 4, 3);
        const beliefs = [data, [...data.slice(1), way * Math.log(100)], [...data.slice(1), way * Math.log(1e6)]].map((xs) =>
          robustlyUpdated(prior, xs.map(whole)),
        );
        const [clean, wild, wilder] = beliefs as [Belief, Belief, Belief];
        const deviation = Math.sqrt(predictedVariance(clean));
        expect(Math.abs(wild.mean - clean.mean)).toBeLessThan((4.5 * deviation) / (n + prior.k));
        expect(Math.abs(wilder.mean - wild.mean)).toBeLessThan(1e-3);
        expect(Math.abs(Math.sqrt(predictedVariance(wild)) / deviation - 1)).toBeLessThan(0.25);
      }),
    );
  });
});

describe("a three-point time", () => {
  const point = fc
    .tuple(
      fc.double({ min: 0.3, max: 1, noNaN: true }),
      fc.double({ min: 0.5, max: 60, noNaN: true }),
      fc.double({ min: 1.3, max: 5, noNaN: true }),
    )
    .map(([low, likely, high]): ThreePoint => ({ low: likely * low, likely, high: likely * high }));

  it("moves to the mean and spread that are wanted, keeping its skew", () => {
    fc.assert(
      fc.property(
        point,
        fc.double({ min: 0.3, max: 3, noNaN: true }),
        fc.double({ min: 0.6, max: 1.3, noNaN: true }),
        (time, factor, spread) => {
          const was = shapeOf(time);
          const move = moveTo(time, { mean: was.mean * factor, variance: was.variance * spread });
          const is = moved({ low: time.low * 100, likely: time.likely * 100, high: time.high * 100 }, move);
          const shape = shapeOf(is);
          expect((shape.mean * is.likely) / (100 * time.likely)).toBeCloseTo(was.mean * factor, 3);
          expect(shape.variance).toBeCloseTo(was.variance * spread, 3);
          expect(is.low <= is.likely && is.likely <= is.high).toBe(true);
        },
      ),
    );
  });
  it("does not move when it is what is wanted", () => {
    fc.assert(
      fc.property(point, (time) => {
        const move = moveTo(time, shapeOf(time));
        expect(move.factor).toBeCloseTo(1, 9);
        expect(move.stretch).toBeCloseTo(1, 6);
      }),
    );
  });
  it("may start at nothing, or have no spread of its own", () => {
    const free = moveTo({ low: 0, likely: 2, high: 6 }, { mean: 2, variance: 0.2 });
    expect(moved({ low: 0, likely: 2, high: 6 }, free).low).toBe(0);
    const certain = moveTo({ low: 5, likely: 5, high: 5 }, { mean: 1.2, variance: 0.1 });
    const learnt = moved({ low: 5, likely: 5, high: 5 }, certain);
    expect(shapeOf(learnt).variance).toBeCloseTo(0.1, 3);
    expect(shapeOf(learnt).mean * learnt.likely).toBeCloseTo(6, 3);
    expect(moved({ low: 0, likely: 0, high: 0 }, certain)).toEqual({ low: 0, likely: 0, high: 0 });
  });
});

const closed = (time: WorkLog["time"], input: EstimateInput = INPUT, job = "job 1") => ({ job, input, log: { time, parts: [] } });

describe("an observation", () => {
  it("is a piece of work's minutes beside its standard, and what that rests on", () => {
    const observed = observationsOf(
      closed([minutes("clean", 20), minutes("clean", 5), minutes("caps", 30), minutes("open low", 4)]),
      PLAIN,
    )!;
    expect(observed).toEqual([
      {
        job: "job 1",
        model: "Threnwick Cadence 3",
        grade: "sound",
        line: "labour:clean",
        minutes: 25,
        standard: about(19),
        rests: [{ standard: { is: "operation", id: "clean", name: "clean" }, time: about(19) }],
        ratePerHour: 6000,
      },
      expect.objectContaining({
        minutes: 30,
        standard: about(20),
        rests: [
          { standard: { is: "operation", id: "replace", name: "replace" }, time: about(16) },
          { standard: { is: "leads" }, time: about(4) },
        ],
      }),
      expect.objectContaining({
        line: "access:low",
        minutes: 4,
        rests: [{ standard: { is: "fastener", kind: "screw" }, time: about(3) }],
      }),
    ]);
  });
  it("is one for opening that was not told apart", () => {
    const [observed, ...others] = observationsOf(closed([minutes("open", 30)]), PLAIN)!;
    expect([others, observed!.line, observed!.minutes, observed!.standard]).toEqual([[], "access", 30, about(21)]);
  });
  it("is by the book in question, whichever the job was priced by, and takes the grade with it", () => {
    const worn = { ...INPUT, unit: { ...INPUT.unit, grade: "worn" } };
    const slow: RateBook = { ...PLAIN, operations: PLAIN.operations.map((each) => ({ ...each, unit: about(10) })) };
    const [observed] = observationsOf(closed([minutes("clean", 20)], worn), slow)!;
    expect(observed).toMatchObject({ standard: about(81), rests: [{ time: about(54) }] });
  });
  it("is left out for work with its own minutes, measured access, unattended time and work not done", () => {
    const own: EstimateInput = {
      ...INPUT,
      map: {
        assemblies: ORGAN.map((each) =>
          each.id === "lid" ? { ...each, access: { by: "measured", remove: about(3), refit: about(3) } } : each,
        ),
      },
      items: [
        { ...INPUT.items[0]!, minutes: about(2) },
        { ...INPUT.items[1]!, id: "soaked", operation: "soak" },
      ],
    };
    expect(observationsOf(closed([minutes("clean", 20), minutes("open lid", 6), minutes("soaked", 60)], own), PLAIN)).toEqual([]);
  });
  it("cannot be had by a book that lacks what the job needs", () => {
    const without = { ...PLAIN, operations: PLAIN.operations.filter(({ id }) => id !== "clean") };
    expect(observationsOf(closed([minutes("clean", 20)]), without)).toBeUndefined();
  });
});

/** `jobs` jobs on which cleaning five took this many minutes; the book says 19. */
const cleaned = (
  jobs: number,
  taken: (job: number) => number,
  given: Partial<EstimateInput["unit"]> = {},
  from = 0,
): Observation[] =>
  Array.from({ length: jobs }, (_, job) => {
    const input = { ...INPUT, unit: { ...INPUT.unit, ...given } };
    return observationsOf(
      closed([minutes("clean", taken(job))], input, `${given.model ?? ""} ${given.grade ?? ""} ${from + job}`),
      PLAIN,
    )!;
  }).flat();
const likelyOf = (book: RateBook) => book.operations.find(({ id }) => id === "clean")!.unit.likely;
const learnt = (observations: readonly Observation[]) => {
  const { proposals, apply } = proposeRateBook(PLAIN, observations);
  return apply(
    proposals.map(({ id }) => id),
    "2026-12-01",
  );
};
/** In keeping with the book's own spread, so that only the middle is news. */
const spreadAround = (middle: number) => (job: number) => middle * Math.exp(0.35 * Math.sqrt(3) * (((job * 7) % 11) / 5 - 1));

describe("a proposed rate book", () => {
  it("is not changed by nothing, nor by too few jobs", () => {
    expect(proposeRateBook(PLAIN, []).proposals).toEqual([]);
    expect(
      proposeRateBook(
        PLAIN,
        cleaned(2, () => 40),
      ).proposals,
    ).toEqual([]);
  });

  it("moves towards what was seen, further the more was seen", () => {
    const likely = [3, 11, 44, 220].map((jobs) => likelyOf(learnt(cleaned(jobs, spreadAround(38)))));
    const steps = [3, ...likely];
    for (const [index, value] of likely.entries()) expect(value).toBeGreaterThan(steps[index]!);
    expect(likely.at(-1)!).toBeLessThan(6.2);
    expect(likely.at(-1)!).toBeGreaterThan(5);
  });

  it("says how many observations it rests on and what they took", () => {
    const { proposals } = proposeRateBook(PLAIN, cleaned(44, spreadAround(38)));
    const proposal = proposals.find(({ id }) => id === "operation:clean")!;
    expect(proposal).toMatchObject({ observations: 44, jobs: 44, standard: { is: "operation", name: "clean" } });
    expect(proposal.weight).toBeCloseTo(44 / 48, 9);
    const { p10, p50, p80, p90 } = proposal.taken!;
    expect(p10 < p50 && p50 < p80 && p80 < p90).toBe(true);
    expect(p50).toBeGreaterThan(1.7);
    expect(proposal.changes.map(({ pointer }) => pointer)).toEqual(["/operations/1/setup", "/operations/1/unit"]);
  });

  it("narrows a standard that always takes the same, and widens one that never does", () => {
    const range = (book: RateBook) => {
      const { low, high } = book.operations[1]!.unit;
      return high / low;
    };
    expect(range(learnt(cleaned(60, () => 19)))).toBeLessThan(range(PLAIN));
    expect(range(learnt(cleaned(60, (job) => (job % 2 ? 4 : 60))))).toBeGreaterThan(range(PLAIN));
  });

  it("counts many pieces of one job for less than as many jobs", () => {
    const pieces: EstimateInput = {
      ...INPUT,
      items: Array.from({ length: 12 }, (_, n) => ({ ...INPUT.items[0]!, id: `c${n}`, assembly: "top" })),
    };
    const log = pieces.items.map(({ id }) => minutes(id, 40));
    const one = observationsOf(closed(log, pieces, "bad unit"), PLAIN)!;
    const [{ weight: few } = { weight: 0 }] = proposeRateBook(PLAIN, one, { fewestJobs: 1 }).proposals;
    const [{ weight: many } = { weight: 0 }] = proposeRateBook(
      PLAIN,
      one.map((each, n) => ({ ...each, job: `job ${n}` })),
    ).proposals;
    expect(few).toBeLessThan(many);
  });

  it("learns what a grade does against the grade at 100 %", () => {
    const sound = cleaned(60, spreadAround(19));
    const worn = cleaned(60, spreadAround(19 * 1.9), { grade: "worn" });
    const book = learnt([...sound, ...worn]);
    expect(book.grades[0]!.labourPercent).toBe(100);
    expect(book.grades[1]!.labourPercent).toBeGreaterThan(175);
    expect(book.grades[1]!.labourPercent).toBeLessThan(195);
    expect(Math.abs(likelyOf(book) - 3)).toBeLessThan(0.2);
  });

  it("does not lay to the unit's condition what single pieces of work vary by", () => {
    // One piece a job: whether it was the unit or the piece nobody can tell, so the book's word stands.
    expect(Math.abs(learnt(cleaned(80, spreadAround(19))).grades[0]!.spreadPercent - 20)).toBeLessThan(3);
    const [alone] = proposeRateBook(
      PLAIN,
      cleaned(1, () => 90),
      { fewestJobs: 1 },
    ).apply(["grade:sound"], "2026-12-01").grades;
    expect(alone!.spreadPercent).toBe(20);
    // Two pieces a job that even out: the units are alike.
    const even = Array.from({ length: 80 }, (_, job) => {
      const off = spreadAround(1)(job);
      return observationsOf(closed([minutes("clean", 19 * off), minutes("caps", 20 / off)], INPUT, `job ${job}`), PLAIN)!;
    }).flat();
    expect(learnt(even).grades[0]!.spreadPercent).toBeLessThan(14);
  });

  it("is moved little by one wild line of six jobs, and never the other way; plain averages let the likely time fall", () => {
    const taken = [17, 23, 19, 15, 26, 21];
    const [clean, wild, tiny] = [1, 100, 0.01].map((times) =>
      likelyOf(learnt(cleaned(6, (job) => taken[job]! * (job === 2 ? times : 1)))),
    ) as [number, number, number];
    expect(wild).toBeGreaterThanOrEqual(clean);
    expect(wild).toBeLessThan(clean * 1.15);
    expect(tiny).toBeLessThanOrEqual(clean);
    expect(tiny).toBeGreaterThan(clean / 1.15);
  });

  it("has a likely time that no wild job moves against its own direction, however few jobs there are", () => {
    const near = fc.array(fc.double({ min: 15, max: 27, noNaN: true }), { minLength: 2, maxLength: 9 });
    const wild = fc.tuple(fc.double({ min: 5, max: 100, noNaN: true }), fc.constantFrom(1, -1), fc.constantFrom(0.5, 1, 2));
    const moves: number[] = [];
    fc.assert(
      fc.property(near, wild, (taken, [times, way, pace]) => {
        const all = [...taken, 20 * times ** way].map((each) => pace * each);
        const observations = cleaned(all.length, (job) => all[job]!);
        const about = proposeRateBook(PLAIN, observations).proposals.find(({ id }) => id === "operation:clean");
        const job = observations.at(-1)!.job;
        // Of two others and a wild job nothing is proposed where it misleads.
        if (!about) return;
        const likely = (changes: readonly Change[]) => (changes.at(-1)!.proposed as ThreePoint).likely;
        const without = proposeRateBook(PLAIN, observations.slice(0, -1), { fewestJobs: 1 }).proposals[0]!;
        const by = (likely(about.changes) / likely(without.changes) - 1) * way;
        expect(by).toBeGreaterThan(-0.005);
        if (about.most?.leftOut)
          expect([about.most.job, about.jobs, about.most.changes]).toEqual([job, taken.length, about.changes]);
        moves.push(by);
      }),
      runs(300),
    );
    expect(Math.max(...moves)).toBeLessThan(0.4);
  });

  it("keeps a grade's spread when one job of forty took a hundred times as long", () => {
    const taken = (wild: number) =>
      Array.from({ length: 40 }, (_, job) => {
        const off = spreadAround(1)(job) * (job === 7 ? wild : 1);
        return observationsOf(closed([minutes("clean", 19 * off), minutes("caps", 20 * off)], INPUT, `job ${job}`), PLAIN)!;
      }).flat();
    const [clean, wild] = [1, 100].map((times) => learnt(taken(times)).grades[0]!.spreadPercent) as [number, number];
    expect(Math.abs(wild / clean - 1)).toBeLessThan(0.25);
  });

  it("names the job that moves it most, and what would be proposed without it", () => {
    const all = cleaned(9, (job) => (job === 4 ? 70 : 19 + (job % 3)));
    const proposals = (of: readonly Observation[]) => proposeRateBook(PLAIN, of).proposals;
    const about = (of: readonly Observation[]) => proposals(of).find(({ id }) => id === "operation:clean")!;
    const { most, changes } = about(all);
    expect(most?.job).toBe(all[4]!.job);
    expect(most?.changes).not.toEqual(changes);
    const off = (of: readonly Observation[]) => about(of).taken!.p50;
    const without = all.map(({ job }) => Math.abs(off(all.filter((each) => each.job !== job)) - off(all)));
    expect(without.indexOf(Math.max(...without))).toBe(4);
    expect(
      proposeRateBook(
        PLAIN,
        cleaned(1, () => 70),
        { fewestJobs: 1 },
      ).proposals[0],
    ).not.toHaveProperty("most");
  });

  it("is the next version with what was accepted, and the old one stays as it was", () => {
    const before = JSON.stringify(PLAIN);
    const input = { ...INPUT, rateBook: PLAIN };
    const sheet = JSON.stringify(sheetOf(input));
    const { proposals, apply } = proposeRateBook(PLAIN, [
      ...cleaned(44, spreadAround(38)),
      ...cleaned(10, spreadAround(50), { grade: "worn" }),
    ]);
    expect(proposals.length).toBeGreaterThan(1);
    const next = apply(["operation:clean", "not there"], "2026-12-01", ({ jobs }) => `${jobs} jobs`);
    expect(next).toMatchObject({ version: 2, inForceFrom: "2026-12-01", grades: PLAIN.grades, leads: PLAIN.leads });
    expect(next.operations[1]!.source).toEqual({ basis: "measured here", note: "54 jobs" });
    expect(next.operations.filter((_, at) => at !== 1)).toEqual(PLAIN.operations.filter((_, at) => at !== 1));
    expect(apply([], "2026-12-01")).toEqual({ ...PLAIN, version: 2, inForceFrom: "2026-12-01" });
    expect([JSON.stringify(PLAIN), JSON.stringify(sheetOf(input))]).toEqual([before, sheet]);
    expect(estimate({ ...INPUT, rateBook: next }).ok).toBe(true);
  });

  it("keeps to what can be priced, whatever was logged", () => {
    const logged = fc.array(
      fc.tuple(fc.constantFrom("clean", "caps", "voice", "open", "open top"), fc.integer({ min: 1, max: 10 ** 7 })),
      {
        minLength: 1,
        maxLength: 10,
      },
    );
    fc.assert(
      fc.property(fc.array(logged, { minLength: 3, maxLength: 6 }), (jobs) => {
        const observations = jobs.flatMap(
          (log, n) =>
            observationsOf(
              closed(
                log.map(([where, milli]) => minutes(where, milli / 1000)),
                INPUT,
                `job ${n}`,
              ),
              PLAIN,
            )!,
        );
        const outcome = estimate({ ...INPUT, rateBook: learnt(observations) });
        expect(outcome.ok ? [] : outcome.problems).toEqual([]);
      }),
      runs(40),
    );
  });
});

describe("a model", () => {
  it("that goes differently is found by its own jobs, and shown beside the shop", () => {
    const usual = cleaned(30, spreadAround(19), { model: "Cadence 3" });
    const slow = cleaned(12, spreadAround(45), { model: "Cadence 9" }, 100);
    const few = cleaned(3, spreadAround(90), { model: "Cadence 1" }, 200);
    const findings = modelFindings(PLAIN, [...usual, ...slow, ...few]);
    expect(findings.map(({ model }) => model)).toEqual(["Threnwick Cadence 9", "Threnwick Cadence 3"]);
    const [found] = findings;
    expect(found).toMatchObject({ jobs: 12, standard: { is: "operation", id: "clean" } });
    expect(found!.taken.p50).toBeGreaterThan(found!.inShop.p50 * 1.3);
    expect(found!.times.map(({ pointer }) => pointer)).toEqual(["/operations/1/setup", "/operations/1/unit"]);
  });
});

describe("the share of good pieces", () => {
  const received = [
    { source: "Halden", state: "donor pull", pieces: 12, good: 5 },
    { source: "Ember Row", state: "donor pull", pieces: 3, good: 3 },
    { source: "Pindrake", state: "new", pieces: 40, good: 40 },
  ] as const;
  const shares = sharesGood(received, PLAIN);

  it("starts from the rate book and moves with what came in, by state and by source", () => {
    expect(shares.map(({ source, state, pieces, good, book, share }) => [source, state, pieces, good, book, share])).toEqual([
      [undefined, "donor pull", 15, 8, 0.6, 11 / 20],
      [undefined, "new", 40, 40, 1, 1],
      ["Halden", "donor pull", 12, 5, 0.6, 8 / 17],
      ["Ember Row", "donor pull", 3, 3, 0.6, 6 / 8],
      ["Pindrake", "new", 40, 40, 1, 1],
    ]);
    expect(sharesGood([{ ...received[0], pieces: 0, good: 0 }], PLAIN)[0]!.share).toBe(0.6);
  });
  it("lies in the beta distribution's eight parts of ten, as jstat has them", () => {
    const [all] = shares;
    expect(all!.low).toBeCloseTo(jStat.beta.inv(0.1, 3 + 8, 2 + 7), 7);
    expect(all!.high).toBeCloseTo(jStat.beta.inv(0.9, 3 + 8, 2 + 7), 7);
    for (const { low, share, high } of shares) expect(low <= share && share <= high).toBe(true);
  });
  it("is proposed by state for the rate book; sources are for their own offers", () => {
    const { proposals, apply } = proposeRateBook(PLAIN, [], { received });
    expect(proposals).toEqual([
      {
        id: "share good:donor pull",
        standard: { is: "share good", state: "donor pull" },
        changes: [{ pointer: "/scarcity/shareGood/donor pull", was: 0.6, proposed: 0.55 }],
        observations: 15,
        jobs: 0,
        weight: 0.75,
      },
    ]);
    expect(apply(["share good:donor pull"], "2026-12-01").scarcity).toMatchObject({
      shareGood: { "donor pull": 0.55, used: 0.7 },
      source: { basis: "measured here" },
    });
  });
});
