import { expect, it } from "vitest";
import { chance, percent } from "../../src/wording/index.js";

it.each([
  [20, "20%"],
  [0, "0%"],
  [8.25, "8.25%"],
  [0.0001, "0.0001%"],
  [7.0005, "7.0005%"],
  [112.5, "112.5%"],
  [-5, "-5%"],
])("prints %s percent as %s", (value, text) => expect(percent(value, "en-GB")).toBe(text));

it("follows the reader's locale", () => expect(percent(8.25, "de-DE")).toBe("8,25\u00a0%"));

it("prints a probability as a percentage to a tenth", () => {
  expect(chance(0.3, "en-GB")).toBe("30%");
  expect(chance(0.0625, "en-GB")).toBe("6.3%");
  expect(chance(1, "en-GB")).toBe("100%");
});
