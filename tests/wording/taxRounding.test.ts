import { expect, it } from "vitest";
import type { TaxRounding } from "../../src/estimating/input.js";
import { taxRoundingText } from "../../src/wording/index.js";

it.each<[TaxRounding, string]>([
  [
    { level: "group", mode: "half up" },
    "Tax is worked out and rounded once for each tax category; halves are rounded away from zero.",
  ],
  [
    { level: "document", mode: "down" },
    "Tax is worked out exactly and rounded once for the whole document; fractions are dropped.",
  ],
  [{ level: "line", mode: "half down" }, "Tax is worked out and rounded for each line; halves are rounded towards zero."],
  [
    { level: "line", mode: "half up", extraDigits: 1 },
    "Tax is worked out and rounded for each line to 1 more digit than the currency has; halves are rounded away from zero.",
  ],
])("%j", (rule, text) => expect(taxRoundingText(rule)).toBe(text));
