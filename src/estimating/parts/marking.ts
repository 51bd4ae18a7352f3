/**
 * Reads the value that is marked on a part. Values are whole femtofarads or micro-ohms, so that no float rounds them.
 * What can be read in two ways is left unread, but for these precedences:
 * three digits on a capacitor are a code (100 is 10 pF); mF, MF and MFD are microfarads, as old parts are marked; the m of 4m7 is milli
 * on a capacitor and unread on a resistor, where M is mega; K after three digits is a tolerance on a capacitor and kilo on a resistor;
 * .047 alone on a capacitor is microfarads.
 */
import type { PartFamily } from "../input.js";
import { letterTolerance, type Tolerance, takeRatings } from "./tolerance.js";

export interface Marking {
  readonly of: "capacitance" | "resistance";
  /** Femtofarads or micro-ohms. */
  readonly value: bigint;
  readonly tolerance?: Tolerance;
  /** Direct voltage marked beside the value. */
  readonly volts?: number;
}

const LONGEST = 64;

/** Undefined when the text is no value of that family, or could be read in two ways. Never throws. */
export function readMarking(text: string, family: PartFamily): Marking | undefined {
  const of = family === "capacitor" ? "capacitance" : family === "resistor" || family === "control" ? "resistance" : undefined;
  if (!of || text.length > LONGEST) return undefined;
  const { core, volts, tolerance } = takeRatings(text);
  const reading = firstReading(family === "control" ? withoutTaper(core) : core, FORMS[of]);
  if (!reading || (of === "capacitance" && reading.value === 0n)) return undefined;
  const { value, letter } = reading;
  const spread = tolerance ?? (letter === undefined ? undefined : letterTolerance(letter, of, value));
  return { of, value, ...(spread && { tolerance: spread }), ...(volts !== undefined && { volts }) };
}

/** The number as written, the power of ten of its unit, the tolerance letter. */
type Reading = readonly [number: string, exponent: number, letter?: string | undefined];
type Form = readonly [pattern: RegExp, read: (...found: string[]) => Reading | undefined];

/** A decimal mark with three digits after it could be a thousands mark, unless the whole part is 0. */
const NUMBER = String.raw`((?![1-9]\d{0,2}[.,]\d{3}(?!\d))(?:\d+(?:[.,]\d+)?|[.,]\d+))`;

const FEMTO: Readonly<Record<string, number>> = { p: 3, n: 6, u: 9, m: 12, f: 15 };
const OLD_FEMTO: Readonly<Record<string, number>> = { uu: 3, mm: 3, p: 3, n: 6, u: 9, m: 9 };
const MICRO: Readonly<Record<string, number>> = { L: 3, R: 6, K: 9, M: 12, G: 15, T: 18 };

/** IEC 60062: the letter stands where the decimal mark would. */
const lettered = (before: string, after: string) => `${before || 0}.${after || 0}`;

const FORMS: Readonly<Record<Marking["of"], readonly Form[]>> = {
  capacitance: [
    // 0.047uF, 8MFD, 250uuF, 33pFJ
    [
      new RegExp(`^${NUMBER}(uu|mm|[pnum])fd?\\.?([BCDGJKMNQSTZ])?$`, "i"),
      (number, unit, letter) => [number, OLD_FEMTO[unit.toLowerCase()]!, letter],
    ],
    // 2u2, p33, 33p, 4m7, 1F5, 4n7K
    [
      /^(?=\D?\d)(\d*)([pPnNuU]|m(?=\d)|(?<=^\d{1,2})F)(\d*)F?([BCDGJKMNQSTZ])?$/,
      (before, mark, after, letter) => [lettered(before, after), FEMTO[mark.toLowerCase()]!, letter],
    ],
    // EIA-198: two digits and a power of ten, in picofarads; 8 stands for hundredths and 9 for tenths
    [
      /^([1-9]\d)(\d)([BCDFGJKMNQSTZjk])?$/,
      (digits, power, letter) => [digits, FEMTO.p! + (Number(power) < 8 ? Number(power) : Number(power) - 10), letter],
    ],
    // .047K
    [/^(0?[.,]\d+)([BCDFGJKMNQSTZ])?$/, (number, letter) => [number, FEMTO.u!, letter]],
  ],
  resistance: [
    // 4k7, R47, 470R, 4L7, 47KK
    [
      /^(?=\D?\d)(\d*)([RrKkMGTL])(\d*)Ω?([BCDFGJKMN])?$/,
      (before, mark, after, letter) => [lettered(before, after), MICRO[mark.toUpperCase()]!, letter],
    ],
    // 472, 1002: two or three digits and a power of ten; 470 and 1000 could also be plain ohms
    [
      /^(\d{2,3})(\d)([BCDFGJN])?$/,
      (digits, power, letter) =>
        Number(digits + power) === 0
          ? ["0", 0, letter]
          : digits.startsWith("0") || !"1234567".includes(power)
            ? undefined
            : [digits, MICRO.R! + Number(power), letter],
    ],
    // 4.7kΩ, 0.5M, 470Ω, 47
    [new RegExp(`^${NUMBER}([RrKkMG])?Ω?$`), (number, unit) => [number, MICRO[(unit || "R").toUpperCase()]!]],
  ],
};

function firstReading(core: string, forms: readonly Form[]): { value: bigint; letter: string | undefined } | undefined {
  for (const [pattern, read] of forms) {
    const found = pattern.exec(core);
    if (!found) continue;
    const [number = "", exponent = 0, letter] = read(...found.slice(1).map((part) => part ?? "")) ?? [];
    const value = exact(number, exponent);
    return value === undefined ? undefined : { value, letter: letter?.toUpperCase() || undefined };
  }
  return undefined;
}

/** Whole units, or undefined when the number is finer than one. */
function exact(number: string, exponent: number): bigint | undefined {
  const [whole = "", fraction = ""] = number.split(/[.,]/);
  if (whole + fraction === "") return undefined;
  const digits = BigInt(whole + fraction);
  const shift = BigInt(exponent - fraction.length);
  if (shift >= 0n) return digits * 10n ** shift;
  const finer = 10n ** -shift;
  return digits % finer === 0n ? digits / finer : undefined;
}

/** A500K, 10KB, 10k log: the taper of a control says nothing about its value. */
const withoutTaper = (core: string): string => core.replace(/^[ABC](?=[\dR])/i, "").replace(/(?:[ABC]|lin|log)$/i, "");
