/** What the shop reads about the risk of small jobs whose times are certain, each figure worked by hand. */
import { describe, expect, it } from "vitest";
import type { EstimateInput } from "../../../src/estimating/input.js";
import { assembly, item, job } from "../cast/organ.js";
import { PLAIN } from "../cast/plainBook.js";
import { allowances, asked, fixed, underCeiling } from "./asked.js";
import { EXACT, is, PLANNED } from "./shares.js";

/** Cleaning takes 4 + 3 minutes: 7.00. Adjusting takes 5 + 10 at 120.00 an hour: 30.00, found in one job of four. */
const two: EstimateInput = job({
  items: [item("a"), item("f", { operation: "adjust", certainty: { is: "if found", probability: 0.25 } })],
  rateBook: { ...EXACT, risk: "shared" },
});

describe("a job of 7.00 that comes to 37.00 in one case of four", () => {
  it("costs 14.50 on average, and loses 7.50 at the price of what is counted", () => {
    const { risk } = asked(two);
    expect(risk).toMatchObject({ expected: 1450, p10: 700, p50: 700, p80: 3700, p95: 3700, taxIncluded: false });
    expect(risk.tried).toMatchObject({ price: 700, expectedLoss: 750 });
    expect(risk.tried.chanceOfLoss).toBeCloseTo(0.25, 12);
    expect(risk.pricing).toEqual({ by: { is: "as counted" }, deterministic: 700, price: 700 });
    expect(risk).not.toHaveProperty("bounded");
  });

  it("draws a curve that only rises, from 7.00 to 37.00", () => {
    const { curve } = asked(two).risk;
    const amounts = curve.map(({ amount }) => amount);
    expect(amounts).toEqual([...new Set(amounts)].sort((a, b) => a - b));
    expect([amounts[0], amounts.at(-1)]).toEqual([700, 3700]);
    expect(curve[0]!.chance).toBeCloseTo(0.75, 6);
    expect(curve.at(-1)!.chance).toBeCloseTo(1, 6);
  });

  it("names what carries the risk: the work that may be found", () => {
    expect(asked(two).risk.contributions.map(({ source, id, name }) => [source, id, name])).toEqual([
      ["if found", "f", "adjust"],
    ]);
  });

  it("covers it at a fixed price, and stops there under a ceiling", () => {
    const [under, at] = [asked(two, underCeiling(80)), asked(two, fixed(80))];
    expect(at.risk.pricing).toEqual({ by: fixed(80), deterministic: 700, price: 3700 });
    expect(under.risk.pricing).toEqual({ by: underCeiling(80), deterministic: 700, price: 700, ceiling: 3700 });
    expect([under.totals.total, at.totals.total]).toEqual([700, 3700]);
    expect(under.risk.tried).toMatchObject({ price: 3700, chanceOfLoss: 0, expectedLoss: 0 });
    expect(allowances(under)).toEqual([]);
    expect(allowances(at)).toMatchObject([
      {
        ...{ id: "allowance:if found", amount: 3000, taxClass: "labour", why: { rule: "if-found allowance", work: ["adjust"] } },
        from: [
          { is: "policy", entry: "/pricing" },
          { is: "rule", rule: "allowance for risk" },
        ],
      },
    ]);
  });

  it("prices an option under a ceiling at what it adds to what is counted", () => {
    const option = (chosen: boolean) => item("o", { minutes: is(8), certainty: { is: "optional", chosen } });
    const [without, chosen] = [false, true].map((each) =>
      asked({ ...two, items: [...two.items, option(each)] }, underCeiling(80)),
    );
    // The set-up of cleaning is paid already.
    expect(without!.options).toMatchObject([{ id: "o", price: 800 }]);
    expect(chosen!.totals.total - without!.totals.total).toBe(800);
  });
});

it("a certain job has a curve of one point", () => {
  const { curve, contributions } = asked(job({ items: [item("a")], rateBook: EXACT })).risk;
  expect(curve).toEqual([{ amount: 700, chance: 1 }]);
  expect(contributions).toEqual([]);
});

it("work sold for less than its time is worth is the shop's loss: 3.00 for nine minutes beside cleaning at 7.00", () => {
  const mend = { id: "b", own: { name: "Mend", price: 300, minutes: is(9) }, count: 1, certainty: PLANNED } as const;
  const { risk } = asked(job({ items: [item("a"), mend], rateBook: EXACT }));
  expect([risk.pricing.deterministic, risk.expected]).toEqual([1000, 1600]);
  const dearer = { ...mend, own: { ...mend.own, price: 1100 } };
  const { risk: covered } = asked(job({ items: [item("a"), dearer], rateBook: EXACT }));
  expect([covered.pricing.deterministic, covered.expected]).toEqual([1800, 1800]);
});

it("names each source: the unit's condition, an assembly, counted boards, and work by what it is", () => {
  const { risk } = asked(
    job({
      map: { assemblies: [assembly("lid", {}, 9)] },
      boards: [{ size: "large", mounting: "behind another", count: 2 }],
      items: [item("a", { assembly: "lid", count: 9 }), item("none", { count: 0 })],
      rateBook: PLAIN,
    }),
  );
  const names = Object.fromEntries(risk.contributions.map(({ source, id, name }) => [`${source} ${id}`, name]));
  expect(names).toMatchObject({
    "condition sound": "Sound",
    "labour access:lid": "Lid",
    "labour labour:a": "Lid: clean × 9",
  });
  expect(Object.values(names)).toContain("large boards behind another × 2");
  expect(Object.keys(names)).not.toContain("labour labour:none");
});
