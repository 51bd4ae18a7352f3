/**
 * The shop's figures against jobs as they may really go: times, condition, faults and bad pieces are drawn (seeded, test only) and each
 * job is priced as counted by the engine, access and all. Nothing of src/estimating/risk takes part in the drawing; beta quantiles by jstat.
 */
import { jStat } from "jstat";
import { expect, it } from "vitest";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput, ThreePoint, WorkItem } from "../../../src/estimating/input.js";
import { assembly, item, job } from "../cast/organ.js";
import { PLAIN } from "../cast/plainBook.js";
import { normals, quantileOf, seeded } from "../risk/simulation.js";
import { asked, netOf } from "./asked.js";

const JOBS = 6000;
const none: ThreePoint = { low: 0, likely: 0, high: 0 };
const opens: ThreePoint = { low: 8, likely: 12, high: 30 };

const work = (id: string, likely: number, given: Partial<WorkItem> = {}): WorkItem =>
  item(id, { minutes: { low: likely * 0.7, likely, high: likely * 2.5 }, ...given });

const input: EstimateInput = job({
  unit: { maker: "Threnwick", model: "Cadence 3", grade: "worn" },
  rateBook: { ...PLAIN, operations: PLAIN.operations.map((each) => ({ ...each, setup: none })) },
  map: {
    assemblies: [
      assembly("lid", { access: { by: "measured", remove: opens, refit: none } }),
      assembly("deep", { access: { by: "measured", remove: opens, refit: none }, behind: ["lid"] }),
    ],
  },
  items: [
    work("a", 60),
    work("b", 90, { assembly: "lid" }),
    work("c", 25),
    work("fault", 80, { assembly: "deep", certainty: { is: "if found", probability: 0.35 } }),
    work("with it", 30, { certainty: { is: "if found", probability: 0.2, group: "other" }, part: { type: "valve" } }),
  ],
});

it("P50, P80, P95, expected cost and the chance of loss are those of six thousand jobs", () => {
  const uniform = seeded(2026);
  const normal = normals(uniform);
  // ln C has variance ln(1 + cv^2) and mean minus half of it, so that C has mean 1 (cv 0.4: the grade 'worn').
  const sigma = Math.sqrt(Math.log(1 + 0.4 ** 2));
  const totals = Float64Array.from({ length: JOBS }, () => {
    const condition = Math.exp(sigma * normal() - sigma ** 2 / 2);
    const draw = ({ low, likely, high }: ThreePoint): ThreePoint => {
      const alpha = 1 + (4 * (likely - low)) / (high - low);
      const minutes = condition * (low + (high - low) * jStat.beta.inv(uniform(), alpha, 6 - alpha));
      return { low: minutes, likely: minutes, high: minutes };
    };
    const assemblies = input.map!.assemblies.map((each) => ({
      ...each,
      access: { by: "measured", remove: draw(opens), refit: none } as const,
    }));
    const items = input.items.flatMap(({ certainty, minutes, ...each }): WorkItem[] =>
      certainty.is === "if found" && uniform() >= certainty.probability
        ? []
        : [{ ...each, minutes: draw(minutes!), certainty: { is: "planned" } }],
    );
    const outcome = estimate({ ...input, map: { assemblies }, items });
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
    return netOf(outcome.sheet);
  }).sort();
  const { risk } = asked(input, { is: "fixed price", confidencePercent: 80 });
  const off = (figure: number, drawn: number) => Math.abs(figure / drawn - 1);
  // Three standard errors of six thousand draws.
  expect(off(risk.expected, totals.reduce((sum, total) => sum + total, 0) / JOBS)).toBeLessThan(0.02);
  expect(off(risk.p50, quantileOf(totals, 0.5))).toBeLessThan(0.025);
  expect(off(risk.p80, quantileOf(totals, 0.8))).toBeLessThan(0.03);
  expect(off(risk.p95, quantileOf(totals, 0.95))).toBeLessThan(0.04);
  const losing = totals.filter((total) => total > risk.tried.price);
  expect(Math.abs(losing.length / JOBS - 0.2)).toBeLessThan(0.02);
  const lost = losing.reduce((sum, total) => sum + total - risk.tried.price, 0) / JOBS;
  expect(off(risk.tried.expectedLoss, lost)).toBeLessThan(0.2);
});
