import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { finalAccount } from "../../../src/estimating/closeout/account/finalAccount.js";
import { type AccountTerms, usualBasis } from "../../../src/estimating/closeout/account/terms.js";
import type { JobDone } from "../../../src/estimating/closeout/jobDone.js";
import { closeOut } from "../../../src/estimating/closeout/variance/closeOut.js";
import { VARIANCES } from "../../../src/estimating/closeout/variance/row.js";
import type { EstimateInput, Pricing, WorkItem } from "../../../src/estimating/input.js";
import { resolve } from "../../../src/estimating/resolve.js";
import { riskWorthText } from "../../../src/wording/closeout.js";
import { runs } from "../../setup/runs.js";
import { item, job, sum } from "../cast/organ.js";
import { anyLog, done, exactly, INPUT, minutes, revisionOf, sheetOf } from "./done.js";

const FIXED: Pricing = { is: "fixed price", confidencePercent: 80 };
const by = (pricing: Pricing): EstimateInput => ({ ...INPUT, policy: { pricing } });
const input = by(FIXED);
const sheetNow = () => sheetOf(input);
const exact = () => exactly(sheetNow(), input);
const terms = { on: "2026-11-25", payments: [], warrantyDays: 90, oldParts: { is: "returned" } } as const;
const closed = (given: JobDone) => {
  const result = closeOut(given);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.closeOut;
};
const billed = (given: JobDone, basis: AccountTerms["basis"] = "fixed price", more: Partial<AccountTerms> = {}) => {
  const result = finalAccount(given, { ...terms, basis, ...more });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.account;
};
const onFixed = (log: JobDone["log"], given: Partial<JobDone> = {}) => done(log, { revisions: [revisionOf(input)], ...given });
const allowance = (id: string) => sheetNow().lines.find((line) => line.id === `allowance:${id}`)!.amount;

describe("a price fixed with allowances for risk", () => {
  it("is billed as agreed, found or not: what may be found is within it", () => {
    const found = onFixed({ ...exact(), time: [...exact().time, minutes("valve", 11)] }, { found: ["valve"] });
    expect(billed(found).totals).toEqual(sheetNow().totals);
    expect(billed(onFixed(exact())).totals).toEqual(sheetNow().totals);
  });

  it("keeps all its allowances when work and parts go as allowed and nothing is found", () => {
    const { risk, total } = closed(onFixed(exact()));
    expect(risk.map(({ line, charged, used, kept }) => [line.id, charged, used, kept])).toEqual([
      ["allowance:labour", allowance("labour"), 0, allowance("labour")],
      ["allowance:if found", allowance("if found"), 0, allowance("if found")],
    ]);
    expect(total.variance.risk).toBe(-allowance("labour") - allowance("if found"));
  });

  it("pays from each allowance for what it stands for", () => {
    const log = { ...exact(), time: [...exact().time, minutes("clean", 6), minutes("valve", 11)] };
    const { risk, total, scope, rows } = closed(onFixed(log, { found: ["valve"] }));
    // Six minutes over at 1.00; the valve is 11.00 of work and 0.10 of parts.
    expect(risk.map(({ covers, used }) => [covers, used])).toEqual([
      ["work", 600],
      ["found", 1110],
    ]);
    expect(scope.map(({ cause, amount }) => [cause.is, amount])).toEqual([["found", 1110]]);
    expect(rows.find(({ id }) => id === "labour:valve")).toMatchObject({ agreed: 0, allowed: 1100, actual: 1100 });
    expect(total.allowed - total.agreed).toBe(1110);
  });

  it("says in one sentence what was left of each", () => {
    const log = { ...exact(), time: [...exact().time, minutes("clean", 6)] };
    const texts = closed(onFixed(log)).risk.map((each) => riskWorthText(each, { locale: "en-GB", currency: "EUR" }));
    const money = (amount: number) => `€${(amount / 100).toFixed(2)}`;
    expect(texts).toEqual([
      `${money(allowance("labour"))} was charged for risk; the work came to €6.00 more than allowed, so ${money(allowance("labour") - 600)} of it is left.`,
      `${money(allowance("if found"))} was charged for risk; nothing was found, so ${money(allowance("if found"))} of it is left.`,
    ]);
  });

  it("is lower by what was not done, and never higher than agreed", () => {
    const less = billed(onFixed({ time: [], parts: [] }, { done: { voice: 0 } }));
    expect(less.totals.total).toBeLessThan(sheetNow().totals.total - 3000);
    const busy = billed(onFixed({ ...exact(), time: [...exact().time, minutes("clean", 500)] }), "time and parts");
    expect(busy.totals.total).toBe(sheetNow().totals.total);
  });
});

describe("a service, and possible work of another part found beside it", () => {
  const work = [
    { operation: "clean", count: 3 },
    { operation: "adjust", count: 1 },
  ];
  const services = [{ id: "yearly", name: "Yearly service", price: 6000, work, source: { basis: "demo" as const } }];
  const items: WorkItem[] = [
    { id: "year", service: "yearly", count: 1, certainty: { is: "planned" } },
    item("valve", { operation: "replace", part: { type: "valve" }, count: 3, certainty: { is: "if found", probability: 0.3 } }),
  ];
  const priced = (pricing: Pricing) => resolve(job({ items, rateBook: { ...INPUT.rateBook, services }, policy: { pricing } }));
  const found = (pricing: Pricing, given: Partial<JobDone> = {}) => {
    const untimed = { year: "done", "year/1": "done", "year/2": "done", valve: "done" } as const;
    const flags = { atPrice: true, allowedTime: true, foundParts: true };
    return done({}, { revisions: [revisionOf(priced(pricing))], found: ["valve"], untimed, ...flags, ...given });
  };
  const rowsOf = (given: JobDone) =>
    closed(given)
      .rows.filter(({ category }) => category !== "risk")
      .map(({ id, allowed, actual, minutes: taken, pieces }) => [id, allowed, actual, taken?.allowed, pieces?.actual]);

  it("stand in the comparison as they do at a price as counted, timed or not", () => {
    const log = { time: [minutes("year/1", 20)], parts: [] };
    for (const given of [{}, { untimed: {}, log }, { untimed: { valve: "done" }, log }] as const) {
      const [fixed, counted] = [found(FIXED, given), found({ is: "as counted" }, given)];
      expect(rowsOf(fixed)).toEqual(rowsOf(counted));
      expect(closed(fixed).attended).toEqual(closed(counted).attended);
      expect(billed(fixed).worked).toEqual(billed(counted).worked);
    }
    expect(billed(found(FIXED)).worked.untimed).toBe(sum([13, 15, 17]));
  });

  it("stay as they were in what was closed before", () => {
    const before = closed(found(FIXED, { foundParts: false })).rows;
    expect(before.map(({ id, minutes: taken, actual }) => [id, taken?.allowed ?? actual])).toEqual(
      expect.arrayContaining([
        ["labour:year/1", 0],
        ["part:valve valve", 0],
      ]),
    );
  });

  it("leave the service its share by time where all of it is taken back", () => {
    const share = (groups: readonly string[], kept: boolean) => {
      const revision = revisionOf(priced(FIXED));
      const then = { revision, found: groups, done: { "year/1": 3, ...(groups.length > 0 && { valve: 3 }) }, kept };
      const account = billed(done({}, { revisions: [revision], thenAgreed: then }), "declined", {
        agreedThen: { entries: [], upTo: 1e9, charged: true },
      });
      return account.lines.find(({ id }) => id === "labour:year")?.amount;
    };
    expect([share([], true), share(["valve"], true), share(["valve"], false)]).toEqual([2786, 2786, 4500]);
  });
});

describe("time and parts under a ceiling of a confidence", () => {
  const pricing: Pricing = { is: "time and parts with ceiling", confidencePercent: 80 };

  it("is billed by time and parts, and stops at that ceiling", () => {
    expect(usualBasis(by(pricing))).toBe("time and parts");
    expect([usualBasis(INPUT), usualBasis(input)]).toEqual(["fixed price", "fixed price"]);
    const ceiling = sheetOf(by(pricing)).ceiling.amount;
    expect(ceiling).toBe(sheetNow().totals.total);
    const job = done({ time: [minutes("clean", 500)] }, { revisions: [revisionOf(by(pricing))] });
    expect(billed(job, "time and parts").totals.total).toBe(ceiling);
  });
});

it("sums to the minor unit whatever the pricing", () => {
  const pricing = fc.constantFrom<Pricing>(
    FIXED,
    { is: "expected cost plus", percent: 12 },
    { is: "time and parts with ceiling", confidencePercent: 90 },
  );
  const anyJob = pricing.chain((each) =>
    fc.record({ priced: fc.constant(by(each)), log: anyLog(by(each), sheetOf(by(each))), found: fc.boolean(), voice: fc.nat(1) }),
  );
  fc.assert(
    fc.property(anyJob, ({ priced, log, found, voice }) => {
      const result = closeOut({ revisions: [revisionOf(priced)], found: found ? ["valve"] : [], done: { voice }, log });
      const { total, rows, scope, risk } = result.ok ? result.closeOut : result.partial!;
      for (const figure of ["quoted", "agreed", "allowed", "actual"] as const)
        expect(sum(rows.map((row) => row[figure]))).toBe(total[figure]);
      expect(sum(VARIANCES.map((kind) => total.variance[kind]))).toBe(total.actual - total.allowed);
      expect(sum(scope.map(({ amount }) => amount))).toBe(total.allowed - total.quoted);
      for (const { charged, used, kept } of risk) expect(kept + used).toBe(charged);
    }),
    runs(40),
  );
});
