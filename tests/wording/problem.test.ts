import { expect, it } from "vitest";
import { problemIn } from "../../src/wording/problem.js";

it("says of an amount beyond all counting only that it is out of range, and up to what it may be", () => {
  const problem = { name: "amount out of range", pointer: "/policy/ceiling", where: "Ceiling", value: 1e22 } as const;
  const text = problemIn(problem, { locale: "en-US", currency: "USD" });
  expect(text).toMatch(/^Ceiling: the amount is out of range; give \$0\.00 or more, up to \$[\d,]+\.00\.$/);
});
