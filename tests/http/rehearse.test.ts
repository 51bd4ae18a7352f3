import { expect, it } from "vitest";
import { estimate } from "../../src/estimating/estimate.js";
import { REHEARSAL_JOB } from "../../src/http/app/rehearsalJob.js";
import { rehearse } from "../../src/http/app/rehearse.js";

it("rehearses every kind of work and of risk, and keeps nothing of it", () => {
  const before = JSON.stringify(REHEARSAL_JOB);
  rehearse();
  expect(JSON.stringify(REHEARSAL_JOB)).toBe(before);
  const outcome = estimate(REHEARSAL_JOB, { risk: true });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  const { lines, ifFound, options, suggestions, risk } = outcome.sheet;
  expect(new Set(lines.map(({ sort }) => sort))).toEqual(
    new Set(["access", "replacement", "soak", "labour rounding", "part", "allowance"]),
  );
  expect([ifFound, options, suggestions, risk!.buyPlans].every(({ length }) => length > 0)).toBe(true);
  expect(new Set(risk!.contributions.map(({ source }) => source))).toEqual(
    new Set(["condition", "labour", "sourcing", "if found"]),
  );
});
