import { describe, expect, it } from "vitest";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput, Pricing } from "../../../src/estimating/input.js";
import type { RiskSummary, Sheet } from "../../../src/estimating/sheet.js";
import { Curve } from "../../../src/pages/sheet/risk/curve.js";
import { SheetView } from "../../../src/pages/sheet/sheetView.js";
import { money } from "../../../src/wording/figures.js";
import { whyText } from "../../../src/wording/reasons.js";
import { axisOf, marksOf } from "../../../src/wording/riskCurve.js";
import { DEMOS, demoInput } from "../cast/bench.js";

const tongue = { locale: "en-GB", currency: "GBP" };

function priced(name: string, pricing?: Pricing): { input: EstimateInput; sheet: Sheet; risk: RiskSummary } {
  const demo = demoInput(name);
  const input = { ...demo, policy: { ...demo.policy, ...(pricing && { pricing }) } };
  const outcome = estimate(input, { risk: true });
  if (!outcome.ok) throw new Error("The demo has problems.");
  return { input, sheet: outcome.sheet, risk: outcome.sheet.risk! };
}

const html = (name: string, pricing?: Pricing) => {
  const { input, sheet } = priced(name, pricing);
  return String(<SheetView sheet={sheet} input={input} tongue={tongue} />);
};
const words = (text: string): string =>
  text
    .replace(/<[^>]+>/g, " ")
    .replaceAll("&#39;", "'")
    .replaceAll("&amp;", "&")
    .replace(/\s+/g, " ");

const FIXED: Pricing = { is: "fixed price", confidencePercent: 80 };
const CEILING: Pricing = { is: "time and parts with ceiling", confidencePercent: 90 };

describe("a scarcity margin", () => {
  it("unfolds into the sum behind it", () => {
    const read = words(html("string-organ-keyboard"));
    expect(read).toContain("Expected to be spent on good ones, £36.06, less their price above, £19.70: £16.36.");
  });
});

describe("what the shop reads of a job's risk", () => {
  it.each(DEMOS)("is the plain sentence first, then what the price does: %s", (name) => {
    const { risk } = priced(name, FIXED);
    const read = words(html(name, FIXED));
    const plain = read.indexOf(`4 jobs in 5 like this cost you ${money(risk.p80, tongue)} or less.`);
    expect(plain).toBeGreaterThan(0);
    expect(read.indexOf("Fixed price that covers 4 jobs in 5.")).toBeGreaterThan(plain);
    expect(read).toContain(`price of ${money(risk.tried.price, tongue)}, 1 job in 5 loses money`);
    expect(read.indexOf("Expert view")).toBeGreaterThan(plain);
  });

  it.each(DEMOS)("names every allowance with the sentence its owner reads: %s", (name) => {
    const { sheet } = priced(name, FIXED);
    const allowances = sheet.lines.filter(({ sort }) => sort === "allowance");
    expect(allowances.length).toBeGreaterThan(0);
    const read = words(html(name, FIXED));
    for (const { amount, why } of allowances) {
      expect(read).toContain(money(amount, tongue));
      expect(read).toContain(whyText(why!, tongue).replace(/\s+/g, " "));
    }
  });

  it("speaks of the ceiling where time and parts are charged as they come", () => {
    const read = words(html("tape-echo", CEILING));
    expect(read).toContain("Time and parts, with a ceiling that covers 9 jobs in 10.");
    const { sheet, risk } = priced("tape-echo", CEILING);
    const [gross, net] = [sheet.ceiling.amount, risk.tried.price].map((amount) => money(amount, tongue));
    expect(gross).not.toBe(net);
    expect(read).toContain(`never pays more than the ceiling of ${gross} (${net} without tax), 1 job in 10 loses money`);
    expect(read).toContain("Ceiling 9 jobs in 10");
  });

  it("names the ceiling that the owner set, and reckons what that loses, not the one that does not hold", () => {
    const demo = demoInput("tape-echo");
    const outcome = estimate({ ...demo, policy: { ...demo.policy, pricing: CEILING, ceiling: 54_000 } }, { risk: true });
    if (!outcome.ok) throw new Error("The demo has problems.");
    const read = words(String(<SheetView sheet={outcome.sheet} input={demo} tongue={tongue} />));
    expect(read).toContain(
      "a ceiling that covers 9 jobs in 10. In its place holds the owner's own ceiling of £540.00, tax included. If the owner never pays more than the ceiling of £540.00 (£450.00 without tax), about",
    );
  });

  it("names the total as the ceiling where it is above what the owner had allowed", () => {
    const demo = demoInput("tape-echo");
    const outcome = estimate({ ...demo, policy: { ...demo.policy, ceiling: 10_000 } });
    if (!outcome.ok) throw new Error("The demo has problems.");
    const total = money(outcome.sheet.totals.total, tongue);
    expect(words(String(<SheetView sheet={outcome.sheet} input={demo} tongue={tongue} />))).toContain(
      `Ceiling ${total} The total: it is above the £100.00 that the owner had allowed, and agreeing allows it.`,
    );
  });

  it("says by when half of such jobs are ready, and 4 in 5", () => {
    const { input, sheet, risk } = priced("plain-counts");
    const [p50, p80] = [
      { days: 12, on: "2026-12-07" },
      { days: 13, on: "2026-12-08" },
    ];
    const ready = (completion: RiskSummary["completion"]) =>
      words(String(<SheetView sheet={{ ...sheet, risk: { ...risk, completion } }} input={input} tongue={tongue} />));
    expect(ready({ p50, p80 })).toContain(
      "Half of such jobs are ready by 7 December 2026 (12 days), 4 in 5 by 8 December 2026 (13 days).",
    );
    expect(ready({ p50: p80, p80 })).toContain("At least 4 jobs in 5 like this are ready by 8 December 2026 (13 days).");
  });

  it("says how many to buy from where, and how sure that is", () => {
    const { risk } = priced("string-organ-keyboard");
    const read = words(html("string-organ-keyboard"));
    expect(risk.buyPlans.length).toBeGreaterThan(0);
    for (const { part, buys } of risk.buyPlans) {
      expect(read).toMatch(new RegExp(`${part.name}(, if it proves needed)?: buy `));
      for (const { pieces, source } of buys) expect(read).toContain(`${pieces} from ${source}`);
    }
  });

  it("is not there when the sheet was not asked for it", () => {
    const { input, sheet } = priced("tape-echo");
    const { risk: _, ...plain } = sheet;
    expect(String(<SheetView sheet={plain} input={input} tongue={tongue} />)).not.toMatch(
      /jobs in 5|risk-expert|<svg class="curve"/,
    );
  });

  it("uses no inline style, which the content security policy refuses", () => {
    expect(html("valve-amplifier", FIXED)).not.toMatch(/ style=/);
  });
});

const drawn = (risk: RiskSummary): string => String(<Curve risk={risk} tongue={tongue} />);

/** x and y of the points of the line but the first, which stands on the axis. */
const pointsOf = (svg: string): readonly (readonly [number, number])[] =>
  [.../class="curve-line" d="([^"]+)"/.exec(svg)![1]!.matchAll(/L([\d.]+) ([\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)]);

describe("the curve", () => {
  it("goes through every point of the distribution, to scale, and never falls", () => {
    const { risk } = priced("valve-amplifier", FIXED);
    const points = pointsOf(drawn(risk)).slice(1);
    expect(points).toHaveLength(risk.curve.length);
    const [first, last] = [points[0]!, points.at(-1)!];
    const [least, most] = [risk.curve[0]!, risk.curve.at(-1)!];
    const perMinor = (last[0] - first[0]) / (most.amount - least.amount);
    const perChance = (last[1] - first[1]) / (most.chance - least.chance);
    risk.curve.forEach(({ amount, chance }, index) => {
      const [x, y] = points[index]!;
      expect(Math.abs(x - (first[0] + (amount - least.amount) * perMinor))).toBeLessThan(0.2);
      expect(Math.abs(y - (first[1] + (chance - least.chance) * perChance))).toBeLessThan(0.2);
      if (index > 0) expect(y).toBeLessThanOrEqual(points[index - 1]![1]);
    });
  });

  it("marks the price by a dashed line and its name, between the percentiles where it belongs", () => {
    const { risk } = priced("tape-echo");
    const svg = drawn(risk);
    const priceAt = Number(/class="curve-price" d="M([\d.]+)/.exec(svg)![1]);
    const marks = [...svg.matchAll(/class="curve-mark" cx="([\d.]+)"/g)].map(([, x]) => Number(x));
    const order = marksOf(risk);
    const place = order.findIndex(({ tried }) => tried);
    expect(marks.filter((x) => x < priceAt)).toHaveLength(place);
    expect(svg).toMatch(/stroke-dasharray/);
    expect(words(svg)).toContain(`Price ${money(risk.tried.price, tongue)}`);
  });

  it("says in words what it draws", () => {
    const { risk } = priced("tape-echo");
    const svg = drawn(risk);
    expect(svg).toMatch(/^<svg [^>]*role="img" aria-labelledby="curve-title curve-desc"/);
    expect(words(/<desc[^>]*>(.*?)<\/desc>/s.exec(svg)![1]!)).toContain(`P80 ${money(risk.p80, tongue)}, 80%`);
  });

  it("is one step where nothing is uncertain", () => {
    const { risk } = priced("tape-echo");
    const certain = { ...risk, p10: 5000, p50: 5000, p80: 5000, p95: 5000, curve: [{ amount: 5000, chance: 1 }] };
    const svg = drawn({ ...certain, tried: { price: 5000, chanceOfLoss: 0, expectedLoss: 0 } });
    expect(svg).not.toMatch(/NaN|Infinity/);
    expect(pointsOf(svg).map(([, y]) => y)).toEqual([222, 30, 30]);
  });
});

describe("the axis of money", () => {
  it.each([
    [[0, 0], "nothing"],
    [[1], "one cent"],
    [[61_200, 134_125], "hundreds"],
    [[1, 9_000_000_000_000], "more than any job"],
  ])("holds every amount of %j and writes two to six of them: %s", (amounts) => {
    const { from, to, ticks } = axisOf(amounts, 5);
    expect(from).toBeLessThan(Math.min(...amounts));
    expect(to).toBeGreaterThan(Math.max(...amounts));
    expect(ticks.length).toBeGreaterThanOrEqual(2);
    expect(ticks.length).toBeLessThanOrEqual(6);
    for (const tick of ticks) expect(tick >= from && tick <= to && Number.isInteger(tick)).toBe(true);
  });
});
