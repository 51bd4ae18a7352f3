/** Sources beside the cases in fixtures/published/iec-60062.json. */
import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import published from "../../../fixtures/published/iec-60062.json";
import type { PartFamily } from "../../../src/estimating/input.js";
import { readMarking } from "../../../src/estimating/parts/marking.js";
import { runs } from "../../setup/runs.js";

interface Group {
  readonly source: string;
  readonly basis: string;
  readonly cases: Readonly<Record<string, string | undefined>>;
}

const check = (family: PartFamily, unitsPerOne: string, groups: readonly Group[]) => {
  for (const { source, basis, cases } of groups)
    it.each(Object.entries(cases))(`reads %s as %s (${source}; ${basis})`, (text, value) => {
      expect(readMarking(text, family)?.value).toBe(BigInt(new Decimal(value!).times(unitsPerOne).toFixed()));
    });
};

describe("a resistor's marking", () => check("resistor", "1e6", published.resistance));
describe("a control's marking", () => check("control", "1e6", published.control));
describe("a capacitor's marking", () => check("capacitor", "1e3", published.capacitance));

describe("a marked tolerance", () => {
  const { source, basis, capacitor, resistor } = published.tolerance;
  it.each(Object.entries(capacitor))(`of a capacitor, %s is %j (${source}; ${basis})`, (text, [below, above]) => {
    expect(readMarking(text, "capacitor")?.tolerance).toEqual({ below, above });
  });
  it.each(Object.entries(resistor))(`of a resistor, %s is %j (${source}; ${basis})`, (text, [below, above]) => {
    expect(readMarking(text, "resistor")?.tolerance).toEqual({ below, above });
  });
});

describe("a voltage marked beside the value", () => {
  it.each([
    ["8 MFD 450V", 450],
    ["10uF 6,3 V", 6.3],
    ["104K 100 WVDC", 100],
    ["104K 100WV", 100],
    ["2u2/63V", 63],
    ["47n 10% 400 V DC", 400],
    ["47n 250VAC", undefined],
    ["47n", undefined],
  ])("%s: %s V", (text, volts) => {
    expect(readMarking(text, "capacitor")?.volts).toBe(volts);
  });
});

describe("what could be read in two ways, or not at all", () => {
  it.each(published.unread.capacitor)("leaves '%s' on a capacitor unread", (text) => {
    expect(readMarking(text, "capacitor")).toBeUndefined();
  });
  it.each(published.unread.resistor)("leaves '%s' on a resistor unread", (text) => {
    expect(readMarking(text, "resistor")).toBeUndefined();
  });
  it.each(published.unread["other families"])("leaves '%s' on a valve unread", (text) => {
    expect(readMarking(text, "valve")).toBeUndefined();
  });
});

describe("any text", () => {
  const families = fc.constantFrom<PartFamily>("capacitor", "resistor", "control", "semiconductor");
  const near = fc.string({ unit: fc.constantFrom(..."0123456789.,pnuµmkKMRrFfDVJ%±+-/ Ω"), maxLength: 80 });

  it("is read or left unread, and never throws", () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.string({ unit: "binary" }), near), families, (text, family) => {
        const marking = readMarking(text, family);
        if (marking) expect(marking.value).toBeGreaterThanOrEqual(marking.of === "capacitance" ? 1n : 0n);
      }),
      runs(5000),
    );
  });

  it("is read at once, however long: a second of this processor, whatever else the machine does", () => {
    const started = process.cpuUsage();
    for (const text of ["1".repeat(100_000), " ".repeat(100_000), "1V ".repeat(30_000), "+".repeat(63), `${"1/".repeat(31)}V`])
      readMarking(text, "capacitor");
    expect(process.cpuUsage(started).user).toBeLessThan(1_000_000);
  });

  it("reads back every whole value written in letter code", () => {
    const marks = fc.constantFrom(["p", 3], ["n", 6], ["u", 9], ["m", 12]) as fc.Arbitrary<[string, number]>;
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 999 }), fc.integer({ min: 0, max: 99 }), marks, (whole, part, [mark, exponent]) => {
        const hundredths = String(part).padStart(2, "0");
        const value = BigInt(whole * 100 + part) * 10n ** BigInt(exponent - 2);
        expect(readMarking(`${whole}${mark}${hundredths}`, "capacitor")?.value).toBe(value);
        if (mark !== "m" && part % 10 !== 0)
          expect(readMarking(`${whole}.${hundredths}${mark}F`, "capacitor")?.value).toBe(value);
      }),
    );
  });
});
