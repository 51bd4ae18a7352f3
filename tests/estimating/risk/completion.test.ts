/** When a job will be ready, held against every way it may go: invented jobs whose work is certain, so that only what turns up decides. */
import { describe, expect, it } from "vitest";
import { type CompletionModel, completion } from "../../../src/estimating/risk/completion.js";
import { found, line } from "./jobShapes.js";

/** 60 minutes at the bench are a day, and 1,440 beside it. */
const bench = (days: number) => line(60 * days, 60 * days, 60 * days);
const beside = (days: number) => line(1440 * days, 1440 * days, 1440 * days, false);
const daysOf = (lines: readonly ReturnType<typeof line>[]) =>
  lines.reduce((sum, { time, underCondition }) => sum + time.likely / (underCondition ? 60 : 1440), 0);
const model = (given: Partial<CompletionModel>, work: Partial<CompletionModel["work"]> = {}): CompletionModel => ({
  ...{ queueDays: 0, leadDays: 0, reorders: [], foundLeadDays: {}, weeklyBenchMinutes: 420 },
  work: { conditionCv: 0, labour: [], ifFound: [], ...work },
  ...given,
});

/** Fewest whole days within which a share of such jobs is ready: every way they may go, by its chance. */
function byEveryWay({ queueDays, leadDays, reorders, foundLeadDays, work }: CompletionModel, share: number): number {
  const events = [
    ...reorders.map(({ probability, days }) => ({ probability, lead: days, work: 0 })),
    ...work.ifFound.map(({ id, probability, labour }) => ({
      ...{ probability, lead: foundLeadDays[id] ?? 0, work: daysOf(labour) },
    })),
  ];
  const ways = events.reduce(
    (all, { probability, lead, work: more }) =>
      all.flatMap((way) => [
        { ...way, chance: way.chance * (1 - probability) },
        { chance: way.chance * probability, lead: Math.max(way.lead, lead), work: way.work + more },
      ]),
    [{ chance: 1, lead: leadDays, work: daysOf(work.labour) }],
  );
  for (let days = 0; ; days++) {
    const ready = ways.reduce((sum, way) => sum + (queueDays + way.lead + way.work <= days ? way.chance : 0), 0);
    if (ready >= share) return days;
  }
}

const valve = { ...found(0.45, 0, [bench(2.25)]), id: "valve" };
const coil = { ...found(0.35, 0, [bench(0.5), beside(1.25)]), id: "coil" };

describe("a job is ready when the slowest of what it waits for is there and its work is done", () => {
  it.each<[string, CompletionModel]>([
    ["nothing to wait for", model({}, { labour: [bench(1.5)] })],
    ["a queue and a soak beside the bench", model({ queueDays: 3 }, { labour: [bench(1.5), beside(2.25)] })],
    ["parts on their way", model({ leadDays: 6, queueDays: 1 }, { labour: [bench(0.5)] })],
    [
      "a reorder sooner than the parts",
      model({ leadDays: 10, reorders: [{ probability: 0.1, days: 3 }] }, { labour: [bench(0.5)] }),
    ],
    [
      "a reorder later than the parts",
      model({ leadDays: 4, reorders: [{ probability: 0.6, days: 11 }] }, { labour: [bench(0.5)] }),
    ],
    [
      "two reorders and two faults, one with a part",
      model(
        {
          leadDays: 2,
          foundLeadDays: { valve: 9 },
          reorders: [
            { probability: 0.3, days: 5 },
            { probability: 0.15, days: 14 },
          ],
        },
        { labour: [bench(1.25)], ifFound: [valve, coil] },
      ),
    ],
    [
      "faults whose parts come late",
      model({ foundLeadDays: { valve: 4, coil: 21 } }, { labour: [bench(3.5)], ifFound: [valve, coil] }),
    ],
    [
      "a fault that is certain not to be",
      model({ foundLeadDays: { valve: 40 } }, { ifFound: [{ ...valve, probability: 0 }, coil] }),
    ],
  ])("%s", (_, job) => {
    expect(completion(job)).toEqual({ p50: byEveryWay(job, 0.5), p80: byEveryWay(job, 0.8) });
  });

  it("takes more than eight lead times for the next longer of eight", () => {
    // Of 0 to 16 days every third is kept, from the longest: 1, 4, 7, 10, 13, 16.
    const reorders = Array.from({ length: 16 }, (_, at) => ({ days: at + 1, probability: at + 1 === 8 ? 0.6 : 0 }));
    expect(completion(model({ reorders }))).toEqual({ p50: 10, p80: 10 });
    expect(completion(model({ reorders: reorders.filter(({ days }) => days > 8 || days % 2 === 0) })).p50).toBe(8);
  });
});
