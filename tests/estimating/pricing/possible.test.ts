/** Possible work under a fixed price: what it shares is paid once, what is certain is as planned, and none of it is dearer than planned. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { EstimateInput, Pricing, RateBook, WorkItem } from "../../../src/estimating/input.js";
import { cpuOf, DEAREST, LONGEST, ofSize } from "../../bench/risk/dearest.js";
import { measure } from "../../bench/risk/measure.js";
import { SHAPES } from "../../bench/risk/shapes.js";
import { shown } from "../../bench/risk/shown.js";
import { trueJobs } from "../../bench/risk/trueJobs.js";
import { runs } from "../../setup/runs.js";
import { assembly, item, job } from "../cast/organ.js";
import { PLAIN } from "../cast/plainBook.js";
import { asked, fixed, netOf, plus, underCeiling } from "./asked.js";

const SHARED: RateBook = { ...PLAIN, risk: "shared" };
const minutes = { low: 8, likely: 12, high: 40 };
const PANEL = [assembly("panel", { access: { by: "measured", remove: { low: 30, likely: 40, high: 90 }, refit: minutes } })];
const faults = (count: number, certainty: WorkItem["certainty"]): WorkItem[] =>
  Array.from({ length: count }, (_, at) => item(`f${at}`, { assembly: "panel", minutes, certainty }));
const behindPanel = (count: number, certainty: WorkItem["certainty"], rateBook = SHARED): EstimateInput =>
  job({ items: [item("a"), ...faults(count, certainty)], map: { assemblies: PANEL }, rateBook });
const found = (probability: number) => ({ is: "if found", probability }) as const;
const planned = { is: "planned" } as const;

describe("faults behind one panel", () => {
  it("open it once: three at 30 % cost less than the same three planned, and eight too", () => {
    for (const count of [3, 8]) {
      const [possible, certain] = [found(0.3), planned].map((certainty) => asked(behindPanel(count, certainty), fixed(80)));
      expect(netOf(possible!)).toBeLessThan(netOf(certain!));
      const each = asked(behindPanel(count, found(0.3), PLAIN), fixed(80));
      expect(netOf(possible!)).toBeLessThan(netOf(each));
      // A book that says nothing is priced as before: the panel with each of them.
      expect(asked(behindPanel(count, found(0.3), { ...SHARED, risk: "each" }), fixed(80)).totals).toEqual(each.totals);
    }
  });

  it.each<[string, Pricing]>([
    ["a fixed price", fixed(80)],
    ["an expected cost and a margin", plus(20)],
    ["a ceiling", underCeiling(95)],
  ])("of probability 1 are as planned, to the byte, under %s", (_, pricing) => {
    for (const items of [3, 1]) {
      const [possible, certain] = [found(1), planned].map((certainty) => asked(behindPanel(items, certainty), pricing));
      // Under a ceiling the price is what is counted, and possible work is counted once it is found.
      const onlyCeiling = pricing.is === "time and parts with ceiling";
      const risk = onlyCeiling ? { ...possible!.risk, pricing: certain!.risk.pricing } : possible!.risk;
      expect(JSON.stringify(risk)).toBe(JSON.stringify(certain!.risk));
      expect(possible!.ceiling.amount).toBe(certain!.ceiling.amount);
      if (!onlyCeiling) expect(possible!.totals).toEqual(certain!.totals);
    }
  });
});

/** The shape with every chance changed. */
const withChances = (input: EstimateInput, chance: (probability: number) => WorkItem["certainty"]): EstimateInput => ({
  ...input,
  rateBook: { ...input.rateBook, risk: "shared" },
  items: input.items.map((each) =>
    each.certainty.is === "if found" ? { ...each, certainty: chance(each.certainty.probability) } : each,
  ),
});

const small = Object.entries(SHAPES).filter(([, { items }]) => items.length <= 14);

it("possible work never makes a fixed price dearer than the same work planned", () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...small.map(([, input]) => input)),
      fc.double({ min: 0.05, max: 1, noNaN: true }),
      fc.constantFrom(50, 80, 95, 99),
      (input, scale, confidence) => {
        const possible = asked(
          withChances(input, (probability) => found(1 - (1 - probability) * scale)),
          fixed(confidence),
        );
        const certain = asked(
          withChances(input, () => planned),
          fixed(confidence),
        );
        expect(netOf(possible)).toBeLessThanOrEqual(netOf(certain));
      },
    ),
    runs(60),
  );
});

it("an option's price is what choosing it adds, to the minor unit, whatever may be found beside it", () => {
  for (const [name, { items, ...rest }] of small.filter(([, input]) => input.items.length > 4)) {
    const optional = (chosen: readonly string[]): EstimateInput =>
      withChances(
        {
          ...rest,
          items: items.map((each, at) =>
            at % 4 === 3 ? { ...each, certainty: { is: "optional", chosen: chosen.includes(each.id) } } : each,
          ),
        },
        found,
      );
    const sheet = asked(optional([]), fixed(80));
    for (const { id, price } of sheet.options)
      expect(asked(optional([id]), fixed(80)).totals.total - sheet.totals.total, `${id} of ${name}`).toBe(price);
  }
});

it("of the accepted estimates that a search looked at, the dearest takes less than half a second of processor time", () => {
  const ms = cpuOf(ofSize(DEAREST), 4);
  console.info(`The dearest estimate: ${ms?.toFixed(0)} ms of CPU`);
  expect(ms).toBeLessThan(500);
});

it("page and papers of an estimate as long as is accepted take less than half a second of processor time each", async () => {
  const all = await shown(ofSize(LONGEST));
  console.info(all.map(({ what, later }) => `${what} ${later.toFixed(0)} ms`).join(", "));
  expect(all.filter(({ later }) => later >= 500)).toEqual([]);
  expect(all.map(({ bytes }) => bytes > 50_000)).toEqual([true, true, true]);
});

describe("a hundred thousand jobs drawn of the true model", () => {
  const JOBS = 100_000;
  const shared = (name: string): EstimateInput => withChances(SHAPES[name]!, found);

  it.each(["three behind one panel", "diamond, eight faults", "steps of 15, three faults", "scarce parts, planned and found"])(
    "go as foreseen, and are charged as the engine charges them: %s",
    (name) => {
      const { totals, sets } = trueJobs(shared(name), JOBS, 7);
      for (const { here, engine } of sets) expect(Math.abs(here - engine)).toBeLessThanOrEqual(8);
      const { off, loss } = measure(shared(name), totals.sort());
      // Three standard errors of so many draws on top of half a percent.
      for (const { percent } of off) expect(Math.abs(percent)).toBeLessThan(1);
      expect(Math.abs(loss)).toBeLessThan(1);
    },
  );

  it("do not go as foreseen where each fault opens the panel anew: the measure can fail", () => {
    const each = { ...SHAPES["eight behind one panel"]! };
    const { off } = measure(each, trueJobs(each, JOBS, 7).totals.sort());
    expect(Math.max(...off.map(({ percent }) => Math.abs(percent)))).toBeGreaterThan(5);
  });
});
