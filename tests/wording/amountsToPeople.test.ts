/** What the engine refuses of an amount, to people in money, to programs in the minor units that they sent. */
import { expect, it } from "vitest";
import type { Problem } from "../../src/estimating/problems.js";
import { problemIn, problemText } from "../../src/wording/problem.js";

const POUNDS = { locale: "en-GB", currency: "GBP" } as const;

it.each<[Problem, string, string]>([
  [
    { name: "total too large", pointer: "", limit: 1_000_000 },
    "the sums pass £10,000.00 and could",
    "the sums pass 1,000,000 of the currency's smallest unit and could",
  ],
  [
    { name: "amount fractional", pointer: "/x", where: "Line 1", value: 12.5 },
    "Line 1: the amount has more decimals than GBP has; round it.",
    "Line 1: the amount 12.5 is not whole; amounts are whole numbers of the currency's smallest unit, such as 1250 for 12.50.",
  ],
  [
    { name: "amount out of range", pointer: "/x", where: "Line 1", value: -1250 },
    "Line 1: -£12.50 is out of range; give £0.00 or more",
    "Line 1: the amount -1250 (in the smallest unit of the currency) is out of range",
  ],
])("%j", (problem, person, program) => {
  expect(problemIn(problem, POUNDS)).toContain(person);
  expect(problemText(problem)).toContain(program);
});
