import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { everyLine } from "../../src/documents/estimate/estimateBlocks.js";
import { subjectOf } from "../../src/documents/estimate/subject.js";
import { estimatePdf } from "../../src/documents/estimatePdf.js";
import type { ChartBlock } from "../../src/documents/layout/block.js";
import { riskPage } from "../../src/documents/risk/riskPage.js";
import { shopCopyPdf } from "../../src/documents/shopCopyPdf.js";
import { estimate } from "../../src/estimating/estimate.js";
import type { EstimateInput } from "../../src/estimating/input.js";
import type { Sheet } from "../../src/estimating/sheet.js";
import { plannedBuyText, raisedText } from "../../src/wording/risk.js";
import { riskCurve } from "../../src/wording/riskCurve.js";
import { CAST, KEYBOARD, priced } from "./support/cast.js";
import { EARLIER, REVISED } from "./support/revision.js";
import { CERTAIN, RISK } from "./support/risk.js";
import { textsOf } from "./support/texts.js";

const subject = subjectOf(priced(KEYBOARD), KEYBOARD);
const atRisk = (input: EstimateInput): Sheet => ({ ...priced(input), risk: RISK });
const told = (risk = RISK): string[] => textsOf(riskPage(risk, subject));
const chart = (risk = RISK): ChartBlock => riskPage(risk, subject).find((block) => block.is === "chart")!;

describe("the shop's page", () => {
  it("says in plain words what the job may cost, beside the percentiles", () => {
    const texts = told();
    const { p10, p50, p80, p95 } = RISK;
    for (const [words, percentile, chance, amount] of [
      ["1 job in 10 like this costs you no more", "P10", "10%", p10],
      ["1 job in 2 like this costs you no more", "P50", "50%", p50],
      ["4 jobs in 5 like this cost you no more", "P80", "80%", p80],
      ["19 jobs in 20 like this cost you no more", "P95", "95%", p95],
    ] as const) {
      const at = texts.indexOf(words);
      expect(texts.slice(at, at + 4)).toEqual([words, percentile, chance, subject.cash(amount)]);
    }
    expect(texts[texts.indexOf("4 jobs in 5 like this cost you no more than") + 1]).toBe(subject.cash(p80));
  });

  it("says how often the chosen price loses money, and what that costs over all jobs", () => {
    const texts = told();
    const at = texts.indexOf("Jobs that cost more than the price");
    expect(texts.slice(at + 1, at + 3)).toEqual(["16.6%", "about 3 jobs in 20"]);
    for (const amount of [RISK.tried.price, RISK.expected, RISK.sd, RISK.tried.expectedLoss])
      expect(texts).toContain(subject.cash(amount));
  });

  it("names what makes the cost uncertain, the six largest, and how many are left out", () => {
    const texts = told();
    for (const { name, takesOff } of RISK.contributions.slice(0, 6)) {
      const at = texts.indexOf(name);
      expect(texts[at + 2]).toBe(subject.cash(takesOff));
    }
    expect(texts).not.toContain(subject.cash(77));
    expect(texts.join("\n")).toContain("4 more things take off no more than the last one here.");
  });

  it("draws the curve from nought to the last chance worked out, with the price on it and round amounts below", () => {
    const { line, upright, across, up, dots, alternative } = chart();
    expect(line.slice(2)).toEqual(RISK.curve.map(({ amount, chance }) => ({ across: amount, up: chance })));
    expect([line[0]!.up, line.at(-1)!.up]).toEqual([0, RISK.curve.at(-1)!.chance]);
    expect(line.every(({ across: at }, index) => index === 0 || at >= line[index - 1]!.across)).toBe(true);
    expect(upright).toEqual({ at: RISK.tried.price, label: "Price £975.31" });
    expect(dots.map(({ label, across: at, up: share }) => [label, at, share])).toEqual([
      ["P10", RISK.p10, 0.1],
      ["P50", RISK.p50, 0.5],
      ["P80", RISK.p80, 0.8],
      ["P95", RISK.p95, 0.95],
    ]);
    expect(across.ticks.map(({ label }) => label)).toEqual(["£700.00", "£800.00", "£900.00", "£1,000.00", "£1,100.00"]);
    expect(up.ticks.map(({ label }) => label)).toEqual(["0%", "20%", "40%", "60%", "80%", "100%"]);
    expect(across.title).toBe("Cost of the job, without tax");
    expect(alternative).toContain(`80% at ${subject.cash(RISK.p80)}`);
  });

  it("draws the points, the axis and the marks that the page draws", () => {
    const { line, dots, across } = chart();
    const { axis, points, marks } = riskCurve(RISK, 6);
    expect(line.map(({ across: amount, up: share }) => ({ amount, chance: share }))).toEqual(points);
    expect(dots.map(({ label }) => label)).toEqual(marks.filter(({ tried }) => !tried).map(({ name }) => name));
    expect([across.from, across.to]).toEqual([axis.from, axis.to]);
  });

  it("keeps a price far outside the curve on the chart", () => {
    for (const price of [100, 400_000]) {
      const { across } = chart({ ...RISK, tried: { ...RISK.tried, price } });
      expect(across.from).toBeLessThan(price);
      expect(across.to).toBeGreaterThan(price);
      expect(across.ticks.length).toBeGreaterThanOrEqual(2);
    }
  });

  it("shows a job without risk as one step", () => {
    const { line, across } = chart(CERTAIN);
    expect(line.map(({ up }) => up)).toEqual([0, 0, 1, 1]);
    expect(new Set(line.slice(1, -1).map(({ across: at }) => at))).toEqual(new Set([70_000]));
    expect(across.title).toBe("Cost of the job, tax included");
    expect(told(CERTAIN)).not.toContain("Where the risk comes from");
    expect(told(CERTAIN)).toContain("no job");
  });

  it("says what to buy of the parts that are hard to get, and why the price stands higher than the risk asks", () => {
    const outcome = estimate({ ...KEYBOARD, policy: { ...KEYBOARD.policy, pricing: { is: "as counted" } } }, { risk: true });
    const risk = outcome.ok ? outcome.sheet.risk! : undefined;
    expect(risk!.buyPlans.length).toBeGreaterThan(1);
    const texts = told({ ...risk!, pricing: { ...risk!.pricing, raisedTo: "minimum margin" } });
    for (const plan of risk!.buyPlans) expect(texts).toContain(plannedBuyText(plan, subject.tongue));
    expect(texts.join("\n")).toContain(`Price: ${raisedText("minimum margin")}`);
    expect(told()).not.toContain("What to buy");
  });

  it("speaks of the ceiling where that is what has to hold", () => {
    expect(chart(CERTAIN).upright.label).toBe("Ceiling £700.00");
    expect(told(CERTAIN)).toEqual(expect.arrayContaining(["Ceiling chosen", "Jobs that cost more than the ceiling"]));
  });

  it("says by when such jobs are ready", () => {
    expect(told()).toContain("Half of such jobs are ready by 19 December 2026 (24 days), 4 in 5 by 26 December 2026 (31 days).");
  });

  it("prints in any tongue of figures, the same bytes each time", async () => {
    const input = { ...KEYBOARD, paperwork: { ...KEYBOARD.paperwork, locale: "de-DE" } };
    const print = async () => Buffer.from((await shopCopyPdf(atRisk(input), input)).bytes);
    expect((await print()).equals(await print())).toBe(true);
    expect((await shopCopyPdf(atRisk(input), input)).warnings).toEqual([]);
    const revised = async () => Buffer.from((await shopCopyPdf(atRisk(REVISED), REVISED, { earlier: EARLIER })).bytes);
    expect((await revised()).equals(await revised())).toBe(true);
  });
});

describe("the owner's estimate", () => {
  const SHOP_ONLY = /for the shop only|P80|percentile|cost more than the|expected (cost|loss)|standard deviation|take off/i;

  it.each(CAST)("says nothing of what the job may cost the shop, whatever the sheet carries: %s", async (_, input) => {
    const sheet = priced(input);
    expect(textsOf(everyLine(subjectOf(sheet, input))).join("\n")).not.toMatch(SHOP_ONLY);
    expect(textsOf(riskPage(RISK, subjectOf(sheet, input))).join("\n")).toMatch(SHOP_ONLY);
    const plain = Buffer.from((await estimatePdf(sheet, input)).bytes);
    expect(plain.equals(Buffer.from((await estimatePdf(atRisk(input), input)).bytes))).toBe(true);
  });

  it("is made of nothing that knows about risk", () => {
    const entry = fileURLToPath(new URL("../../src/documents/estimatePdf.ts", import.meta.url));
    const seen = reachedFrom(entry);
    expect(seen.size).toBeGreaterThan(40);
    expect([...seen].filter((file) => /documents\/risk\/|shopCopyPdf/.test(file))).toEqual([]);
    const shops = reachedFrom(fileURLToPath(new URL("../../src/documents/shopCopyPdf.ts", import.meta.url)));
    expect([...shops].some((file) => file.includes("documents/risk/riskPage"))).toBe(true);
  });
});

/** A module and all that it imports, directly or not, types included. */
function reachedFrom(file: string, seen = new Set<string>()): Set<string> {
  if (seen.has(file)) return seen;
  seen.add(file);
  for (const [, specifier] of readFileSync(file, "utf8").matchAll(/from "(\.[^"]+)"/g)) {
    const next = join(dirname(file), specifier!).replace(/\.js$/, ".ts");
    if (existsSync(next)) reachedFrom(next, seen);
  }
  return seen;
}
