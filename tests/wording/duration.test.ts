import { describe, expect, it } from "vitest";
import { duration, spread } from "../../src/wording/index.js";

const read = (minutes: number, locale?: string) => duration(minutes, locale).replaceAll("\u00a0", " ");

describe("duration", () => {
  it.each([
    [0, "0 min"],
    [0.04, "0 min"],
    [2.386, "2.4 min"],
    [45, "45 min"],
    [59.94, "59.9 min"],
    [59.96, "1 h"],
    [60, "1 h"],
    [85, "1 h 25 min"],
    [119.6, "2 h"],
    [600, "10 h"],
    [-15, "-15 min"],
    [-0.01, "0 min"],
  ])("prints %s minutes as %s", (minutes, text) => expect(read(minutes)).toBe(text));

  it("follows the reader's locale", () => expect(read(2.5, "de-DE")).toBe("2,5 min"));

  it("says a three-point time in one phrase", () =>
    expect(spread({ low: 20, likely: 35, high: 90 }).replaceAll("\u00a0", " ")).toBe(
      "between 20 min and 1 h 30 min, most likely 35 min",
    ));
});
