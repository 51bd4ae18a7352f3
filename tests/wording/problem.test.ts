import { expect, it } from "vitest";
import { problemIn, problemText } from "../../src/wording/problem.js";

it("says of an amount beyond all counting only that it is out of range, and up to what it may be", () => {
  const problem = { name: "amount out of range", pointer: "/policy/ceiling", where: "Ceiling", value: 1e22 } as const;
  const text = problemIn(problem, { locale: "en-US", currency: "USD" });
  expect(text).toMatch(/^Ceiling: the amount is out of range; give \$0\.00 or more, up to \$[\d,]+\.00\.$/);
});

it("has a figure as a person of the locale wrote it, and a chance in percent, where a program reads its own", () => {
  const german = { locale: "de-DE", currency: "EUR" };
  const half = { name: "count fractional", pointer: "", where: "Board", value: 0.5 } as const;
  expect([problemIn(half, german), problemText(half)].map((text) => text.slice(0, 23))).toEqual([
    ...["Board: the count is 0,5", "Board: the count is 0.5"],
  ]);
  const much = { name: "probability out of range", pointer: "", where: "Board", value: 1.405 } as const;
  expect(problemIn(much, german)).toBe(
    "Board: the chance of being needed is 140,5 %; give one from 0 to 100 %, such as 30 % for three in ten.",
  );
  expect(problemText(much)).toContain("is 1.405 (140.5 %); give one from 0 to 1 (");
});
