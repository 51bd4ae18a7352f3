/** The risk of a priced job, and what the shop reads of it: one bench minute costs 1.00 and every time is certain, so by hand. Offers: demo. */
import { describe, expect, it } from "vitest";
import type { EstimateInput, Offer, WorkItem } from "../../../src/estimating/input.js";
import { isCharged } from "../../../src/estimating/labour/groups.js";
import { bareOf } from "../../../src/estimating/pricing/bare.js";
import { jobRisk } from "../../../src/estimating/pricing/jobRisk.js";
import { price, visitNow } from "../../../src/estimating/pricing/price.js";
import { totalOf } from "../../../src/estimating/pricing/total.js";
import { workingsOf } from "../../../src/estimating/pricing/workings.js";
import { assembly, item, job } from "../cast/organ.js";
import { TAXED } from "../cast/plainBook.js";
import { allowances, asked, fixed, netOf, plus, underCeiling } from "./asked.js";
import { EXACT, is } from "./shares.js";

const MAYBE = { is: "if found", probability: 0.25 } as const;
const PLANNED = { is: "planned" } as const;
const own = (id: string, work: WorkItem["own"], certainty: WorkItem["certainty"] = PLANNED): WorkItem => ({
  ...{ id, own: work!, count: 1, certainty },
});
const tube = (id: string, count: number, certainty: WorkItem["certainty"] = PLANNED) =>
  item(id, { operation: "replace", part: { kind: "tube" }, count, certainty });
const map = { assemblies: [assembly("panel", {}, 5), assembly("board", { behind: ["panel"] }, 2)] };
const kinds = [{ id: "tube", type: "valve", name: "Tube", scarcity: "scarce" as const }];
const offer: Offer = {
  ...{ id: "used", kind: "tube", source: "Donors", on: "2026-11-20", currency: "EUR", price: 1000, packSize: 1, leadDays: 4 },
  ...{ state: "used" },
};
const sure: Offer = { ...offer, state: "new", shareGood: 1 };
const given = (items: readonly WorkItem[], more: Partial<EstimateInput> = {}): EstimateInput =>
  job({ map, kinds, offers: [offer], rateBook: EXACT, ...more, items });

function risk(items: readonly WorkItem[], more: Partial<EstimateInput> = {}) {
  const workings = workingsOf(given(items, more));
  const counted = price(workings, workings.items.filter(isCharged), visitNow(workings.input, workings.map));
  return jobRisk(counted, bareOf(counted, workings), workings);
}
const minutes = (labour: readonly { readonly time: { readonly likely: number } }[]) => labour.map(({ time }) => time.likely);

describe("the risk of what is counted", () => {
  it("is bench time by the hour; what runs beside the bench, and a price that was said, is certain", () => {
    const { model, deterministic } = risk([item("a"), item("s", { operation: "soak" }), own("m", { name: "Mend", price: 700 })]);
    expect([minutes(model.labour).slice(0, 1), model.fixed, deterministic]).toEqual([[7], 600 + 700, 2000]);
  });

  it("has the time behind a price as the shop's own: certain is only what the price leaves above it", () => {
    const { model } = risk([
      item("a"),
      own("g", { name: "Glue", price: 300, minutes: is(2) }),
      own("m", { name: "Mend", price: 700 }),
    ]);
    // 2.00 of the 10.00 that were said is time.
    expect([minutes(model.labour).filter((each) => each > 0), model.fixed]).toEqual([[7, 2], 800]);
    expect(risk([item("a"), own("g", { name: "Glue", price: 300, minutes: is(5) })]).model.fixed).toBe(0);
  });

  it("has its buy plans apart from what is certain, and none of a part that nobody offers", () => {
    // Set-up 8, 2 and 1 a tube.
    const bought = risk([tube("v", 2)], { offers: [sure] }).model;
    expect([minutes(bought.labour), bought.fixed, bought.sourcing.map(({ priced }) => priced)]).toEqual([[14], 0, [2000]]);
    const missing = risk([tube("v", 2)], { offers: [] }).model;
    // Guessed at 0.10 each, half as much again for being scarce.
    expect([missing.fixed, missing.sourcing]).toEqual([30, []]);
  });
});

describe("the days of a job", () => {
  it("wait for the longest of its parts, and for a reorder as often as too few are good", () => {
    const { leadDays, reorders, queueDays, weeklyBenchMinutes } = risk([tube("v", 1)], {
      policy: { benchQueueDays: 3 },
    }).completion();
    expect([queueDays, leadDays, weeklyBenchMinutes]).toEqual([3, 4, 1200]);
    // Seven of ten are good: of two, none is in 9 of 100; then four days again.
    expect(reorders).toEqual([{ probability: expect.closeTo(0.09, 9), days: 8 }]);
    expect(risk([tube("v", 1)], { offers: [sure] }).completion().reorders).toEqual([]);
    expect(risk([tube("v", 1)], { offers: [] }).completion()).toMatchObject({ leadDays: 0, reorders: [], queueDays: 0 });
  });

  it("count all time, at the bench and beside it, and the parts of what may be found by themselves", () => {
    const items = [item("a"), tube("v", 1, MAYBE), item("s", { operation: "soak", certainty: MAYBE })];
    for (const rateBook of [EXACT, { ...EXACT, risk: "shared" } as const]) {
      const { leadDays, foundLeadDays, work } = risk(items, { offers: [{ ...sure, leadDays: 9 }], rateBook }).completion();
      expect([leadDays, foundLeadDays]).toEqual([0, { v: 9, s: 0 }]);
      expect(minutes(work.labour)).toEqual([7]);
      expect(work.ifFound.map(({ labour }) => minutes(labour).at(-1))).toEqual([rateBook.risk ? 3 : 11, 60]);
    }
  });
});

describe("where a book shares no risk, what may be found", () => {
  it("carries what it needs by itself: place, set-up, freight, and no time beside the bench", () => {
    const items = [
      item("a"),
      item("f", { assembly: "board", certainty: MAYBE }),
      item("s", { operation: "soak", certainty: MAYBE }),
    ];
    const { found, model, withAll } = risk(items);
    expect(found.map(({ id, items: ids }) => [id, ids])).toEqual([
      ["f", ["f"]],
      ["s", ["s"]],
    ]);
    expect(
      model.ifFound.map(({ labour, parts, probability }) => [minutes(labour).sort((a, b) => a - b), parts, probability]),
    ).toEqual([
      [[6, 7, 15], 0, 0.25],
      [[], 600, 0.25],
    ]);
    expect([model.shared, model.beyond, withAll]).toEqual([undefined, undefined, undefined]);
  });

  it("buys its parts beside those that are bought: only its own pieces, and their cost", () => {
    const { model } = risk([tube("v", 2), tube("f", 3, MAYBE)], { offers: [{ ...sure, freight: 500 }] });
    // 3 x 10.00; three minutes each. Freight is paid already.
    expect(model.ifFound[0]!.sourcing!.map(({ priced }) => priced)).toEqual([3000]);
    expect([minutes(model.ifFound[0]!.labour), model.ifFound[0]!.parts]).toEqual([[9], 0]);
    const first = risk([item("a"), tube("f", 3, MAYBE)], { offers: [{ ...sure, freight: 500 }] }).model.ifFound[0]!;
    expect([first.sourcing!.map(({ priced }) => priced), first.parts]).toEqual([[3000], 500]);
    const missing = risk([item("a"), tube("f", 2, MAYBE)], { offers: [] }).model.ifFound[0]!;
    expect([missing.sourcing, missing.parts]).toEqual([[], 30]);
  });
});

describe("what the shop reads", () => {
  const GROUP = { ...MAYBE, group: "both" };
  const found = [
    item("f", { certainty: GROUP, count: 2 }),
    item("none", { certainty: GROUP, count: 0 }),
    item("g", { operation: "adjust", assembly: "panel", certainty: GROUP }),
  ];

  it("of a certain job is one amount, with certainty", () => {
    const { curve, contributions, p10, p95, sd, bounded } = asked(given([item("a")])).risk;
    expect([curve, contributions, p10, p95, sd, bounded]).toEqual([[{ amount: 700, chance: 1 }], [], 700, 700, 0, undefined]);
  });

  it("names what carries risk as people do: all that turns up together, a part, a line of work, a place, counted boards, the grade", () => {
    const wide = { low: 10, likely: 20, high: 90 };
    const rateBook = { ...EXACT, accessStandards: EXACT.accessStandards.map((each) => ({ ...each, remove: wide })) };
    const named = (items: readonly WorkItem[], more: Partial<EstimateInput> = {}) =>
      asked(given(items, { rateBook, ...more })).risk.contributions.map(({ source, name }) => [source, name]);
    expect(named([item("a"), ...found])).toEqual([["if found", "clean × 2; Panel: adjust"]]);
    expect(named([tube("v", 1)])).toEqual([["sourcing", "Tube"]]);
    expect(named([item("w", { minutes: wide })])).toEqual([["labour", "clean"]]);
    expect(named([item("a")], { boards: [{ size: "small", mounting: "on top", count: 3 }] })).toEqual([
      ["labour", "small boards on top × 3"],
    ]);
    const slow = assembly("lid", { access: { by: "measured", remove: wide, refit: is(0) } });
    expect(named([item("a", { assembly: "lid" })], { map: { assemblies: [slow] } })).toEqual([["labour", "Lid"]]);
    const unlike = { ...rateBook, grades: rateBook.grades.map((grade) => ({ ...grade, spreadPercent: 30 })) };
    const { contributions } = asked(given([item("a")], { rateBook: unlike })).risk;
    expect(contributions.map(({ source, id, name }) => [source, id, name])).toEqual([["condition", "sound", "Sound"]]);
  });

  it("lists the buy plans of what is planned, and of what may be found by what it is for", () => {
    const { buyPlans, taxIncluded } = asked(given([tube("v", 1), tube("f", 1, MAYBE)], { offers: [sure] })).risk;
    expect(buyPlans.map(({ part, group, expectedSpend }) => [part.kind, group, expectedSpend])).toEqual([
      ["tube", undefined, 1000],
      ["tube", "f", 1000],
    ]);
    expect([taxIncluded, buyPlans[0]!.serviceLevel]).toEqual([false, 0.9]);
    expect("exact" in buyPlans[0]! || "outcomes" in buyPlans[0]!).toBe(false);
  });
});

describe("a price by risk", () => {
  const work = given([item("a"), item("f", { count: 4, certainty: { is: "if found", probability: 0.5 } })]);

  it("charges for risk by the policy, and each allowance says so", () => {
    // 12.00 are found in half the jobs: 80 % cost 19.00 or less.
    const sheet = asked(work, fixed(80));
    expect(netOf(sheet)).toBe(1900);
    expect(allowances(sheet).map(({ id, amount, from }) => [id, amount, from])).toEqual([
      [
        "allowance:if found",
        1200,
        [
          { is: "policy", entry: "/pricing" },
          { is: "rule", rule: "allowance for risk" },
        ],
      ],
    ]);
    expect(netOf(asked(work, fixed(50)))).toBe(700);
    // 13.00 on average, a tenth on top.
    expect(netOf(asked(work, plus(10)))).toBe(1430);
  });

  it("under a ceiling charges what is counted and stops at it; options and totals are of what is counted", () => {
    const option = item("o", { count: 5, certainty: { is: "optional", chosen: false } });
    const sheet = asked({ ...work, items: [...work.items, option] }, underCeiling(80));
    expect([netOf(sheet), sheet.ceiling.net, allowances(sheet)]).toEqual([700, 1900, []]);
    expect(sheet.options.map(({ price: more }) => more)).toEqual([1500]);
    expect(sheet.risk.pricing).toMatchObject({ deterministic: 700, price: 700, ceiling: 1900 });
  });

  it("is the total of an input alone too, and of one with problems there is none", () => {
    const taxed = { ...work, rateBook: { ...EXACT, tax: TAXED.tax } };
    expect(totalOf({ ...taxed, policy: { pricing: fixed(80) } })).toBe(2280);
    expect(totalOf(taxed)).toBe(840);
    expect(totalOf({ ...taxed, policy: { pricing: fixed(12) } })).toBeUndefined();
  });
});
