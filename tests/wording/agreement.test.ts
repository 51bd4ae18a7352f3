import { describe, expect, it } from "vitest";
import { answeredText } from "../../src/wording/agreement.js";
import { signedMark, UNIT_DETAILS, unitDetailText } from "../../src/wording/change.js";
import { jobsIn, riskSourceText } from "../../src/wording/risk.js";

describe("an owner's answer", () => {
  it.each([
    ["2026-11-25T10:14:09.000Z", "page", "25 November 2026 at 10:14 GMT, on the owner's page"],
    ["2026-11-25T10:14:09+01:00", "telephone", "25 November 2026 at 09:14 GMT, by telephone"],
    ["2026-11-25", "in person", "25 November 2026, in person"],
    ["25 November 2026 at 10:14 CET", "e-mail", "25 November 2026 at 10:14 CET, by e-mail"],
  ] as const)("says who, when and how: %s", (at, channel, expected) =>
    expect(answeredText({ by: "Ada Fenwick", at, channel, zone: "Europe/London" }, "en-GB")).toBe(`Ada Fenwick, ${expected}`),
  );
});

describe("a chance as a shop counts it", () => {
  it.each([
    [0, "no job"],
    [0.002, "fewer than 1 job in 200"],
    [0.01, "1 job in 100"],
    [0.05, "1 job in 20"],
    [0.1, "1 job in 10"],
    [0.164, "about 3 jobs in 20"],
    [0.28, "about 3 jobs in 10"],
    [1 / 3, "1 job in 3"],
    [0.5, "1 job in 2"],
    [0.8, "4 jobs in 5"],
    [0.95, "19 jobs in 20"],
    [0.999, "all but 1 job in 200"],
    [1, "every job"],
  ])("%f is '%s'", (chance, words) => expect(jobsIn(chance)).toBe(words));

  it("is never far off", () => {
    for (let chance = 0.005; chance <= 0.995; chance += 0.001) {
      const [, jobs, of] = /(\d+) jobs? in (\d+)$/.exec(jobsIn(chance))!;
      const least = Math.min(chance, 1 - chance);
      expect(Math.abs(Number(jobs) / Number(of) - chance)).toBeLessThanOrEqual(Math.max(0.1 * least, 0.005) + 1e-12);
    }
  });
});

describe("short words for what differs", () => {
  it("tell marks apart without colour, by sign and by word", () => {
    const marks = (["added", "dropped", "corrected", "price changed", "rounding"] as const).map((mark) => signedMark(mark));
    expect(marks).toEqual([
      "+\u00a0Added",
      "\u2212\u00a0Dropped",
      "\u2260\u00a0Corrected",
      "\u00b1\u00a0Price changed",
      "~\u00a0Rounding",
    ]);
    expect(new Set(marks.map(([sign]) => sign)).size).toBe(5);
  });

  it("have a text of its own for every detail of a unit and every source of risk", () => {
    const texts = [
      ...UNIT_DETAILS.map((detail) => unitDetailText(detail)),
      ...(["condition", "labour", "sourcing", "if found"] as const).map(riskSourceText),
    ];
    expect(new Set(texts).size).toBe(texts.length);
  });
});
