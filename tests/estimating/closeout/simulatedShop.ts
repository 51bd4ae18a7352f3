/** Test only: an invented shop whose work does not take what its rate book says. Seeded; the truth below is made up. */
import { readFileSync } from "node:fs";
import type { ClosedJob } from "../../../src/estimating/closeout/learning/observation.js";
import { standardId } from "../../../src/estimating/closeout/learning/standard.js";
import { standardsBehind } from "../../../src/estimating/closeout/learning/standardsBehind.js";
import type { TimeEntry } from "../../../src/estimating/closeout/log/workLog.js";
import type { EstimateInput, RateBook } from "../../../src/estimating/input.js";
import { pricedInput } from "../../../src/estimating/pricing/total.js";
import { distributionOf } from "../../../src/estimating/risk/distribution.js";
import { normals, seeded } from "../risk/simulation.js";

const demo = (name: string): EstimateInput =>
  JSON.parse(readFileSync(new URL(`../../../fixtures/demo/${name}.json`, import.meta.url), "utf8")) as EstimateInput;

/** Four models and the demo rate book they share. */
const MODELS = ["string-organ-keyboard", "valve-amplifier", "tape-echo", "plain-counts"].map(demo);
export const BOOK: RateBook = MODELS[0]!.rateBook;

/** What a grade really does; the book says 100 / 110 / 130 % with a spread of 20 / 30 / 45 %. */
export const TRUTH = {
  sound: { share: 0.5, percent: 100, cv: 0.14 },
  worn: { share: 0.35, percent: 120, cv: 0.22 },
  poor: { share: 0.15, percent: 155, cv: 0.35 },
} as const;
/** Standards are off by this much on a log scale: a mean of a sixth too short, and each by its own. */
const OFF = { mean: 0.18, sd: 0.3 };
/** Log standard deviation of one piece of work, beside its unit's condition. */
const OWN = 0.32;

/** Jobs in order of time, each with a log of all its attended minutes. */
export function simulatedShop(jobs: number, seed: number): readonly ClosedJob[] {
  const uniform = seeded(seed);
  const normal = normals(uniform);
  const truth = new Map<string, number>();
  const ratioOf = (id: string) => {
    const known = truth.get(id) ?? Math.exp(OFF.mean + OFF.sd * normal());
    truth.set(id, known);
    return known;
  };
  const lognormal = (sigma: number) => Math.exp(sigma * normal() - (sigma * sigma) / 2);
  return Array.from({ length: jobs }, (_, index): ClosedJob => {
    const model = MODELS[Math.floor(uniform() * MODELS.length)]!;
    const u = uniform();
    const grade = u < TRUTH.sound.share ? "sound" : u < TRUTH.sound.share + TRUTH.worn.share ? "worn" : "poor";
    const items = model.items
      .filter(() => uniform() < 0.6)
      .map((item) => ({
        ...item,
        count: Math.max(1, Math.round(item.count * (0.5 + uniform()))),
        certainty: { is: "planned" } as const,
      }));
    const input: EstimateInput = { ...model, rateBook: BOOK, unit: { ...model.unit, grade }, items, policy: {} };
    const { priced } = pricedInput(input);
    const { percent, cv } = TRUTH[grade];
    const condition = (percent / 100) * lognormal(Math.sqrt(Math.log1p(cv * cv)));
    const behind = standardsBehind(input, priced.items, priced.opened);
    const time = [...priced.access, ...priced.labour].flatMap(({ line: { id, sort }, attended, times }): TimeEntry[] => {
      if (!attended || sort === "donor pull") return [];
      const rests = behind.get(id) ?? [];
      const bare =
        rests.length === 0
          ? times.likely / 1000 / (input.rateBook.grades.find((each) => each.id === grade)!.labourPercent / 100)
          : rests.reduce((sum, { standard, milli }) => sum + (milli.likely / 1000) * ratioOf(standardId(standard)), 0);
      const minutes = Math.round(bare * condition * lognormal(OWN) * 1000) / 1000;
      const named = id.startsWith("access:boards") ? {} : { assembly: id.slice("access:".length) };
      const work =
        sort === "access" ? ({ is: "access", ...named } as const) : ({ is: "item", id: id.slice("labour:".length) } as const);
      return [{ id: `${index} ${id}`, person: "Ines", work, minutes }];
    });
    return { job: `job ${index}`, input, log: { time, parts: [] } };
  });
}

export const minutesTaken = ({ log }: ClosedJob): number =>
  log.time.reduce((sum, entry) => sum + ("minutes" in entry ? entry.minutes : 0), 0);

/** Attended minutes of a job by a rate book, as the risk of the job has them. */
export function forecast({ input }: ClosedJob, rateBook: RateBook): { p50: number; p80: number } {
  const { priced } = pricedInput({ ...input, rateBook });
  const grade = rateBook.grades.find(({ id }) => id === input.unit.grade)!;
  const lines = [...priced.access, ...priced.labour].filter(({ attended, line }) => attended && line.sort !== "donor pull");
  const total = distributionOf(
    {
      conditionCv: grade.spreadPercent / 100,
      fixed: 0,
      labour: lines.map(({ line, times }) => ({
        id: line.id,
        time: { low: times.low / 1000, likely: times.likely / 1000, high: times.high / 1000 },
        ratePerHour: 60_000,
        underCondition: true,
      })),
      sourcing: [],
      ifFound: [],
    },
    { cells: 192, strata: 8 },
  );
  const minutes = (p: number) => total.quantile(p) / 1000;
  return { p50: minutes(0.5), p80: minutes(0.8) };
}
