/** Tolerance and voltage at the end of a marking: what the letters mean, and what is usual where nothing is marked. */
import type { IsoDate, PartType, Percent, Provenance } from "../input.js";
import { divide } from "../money/rounding.js";
import { PERCENT_SCALE, WHOLE } from "../money/scales.js";

export interface Tolerance {
  /** How far below the marked value, in percent of it. */
  readonly below: Percent;
  readonly above: Percent;
}

interface Letters {
  readonly asOf: IsoDate;
  readonly source: Provenance;
  readonly percent: Readonly<Record<string, Tolerance>>;
  /** Capacitors below 10 pF: femtofarads either way. */
  readonly femtofarads: Readonly<Record<string, number>>;
}

const LETTERS: Letters = {
  asOf: "2019-01-01",
  source: { basis: "from memory", note: "IEC 60062:2016 with A1:2019" },
  percent: {
    B: { below: 0.1, above: 0.1 },
    C: { below: 0.25, above: 0.25 },
    D: { below: 0.5, above: 0.5 },
    F: { below: 1, above: 1 },
    G: { below: 2, above: 2 },
    J: { below: 5, above: 5 },
    K: { below: 10, above: 10 },
    M: { below: 20, above: 20 },
    N: { below: 30, above: 30 },
    Q: { below: 10, above: 30 },
    S: { below: 20, above: 50 },
    T: { below: 10, above: 50 },
    Z: { below: 20, above: 80 },
  },
  femtofarads: { B: 100, C: 250, D: 500, F: 1000, G: 2000 },
};

const TEN_PICOFARADS = 10_000n;

/** `value` in femtofarads or micro-ohms. */
export function letterTolerance(letter: string, of: "capacitance" | "resistance", value: bigint): Tolerance | undefined {
  const each = LETTERS.femtofarads[letter];
  if (of === "resistance" || value >= TEN_PICOFARADS || each === undefined) return LETTERS.percent[letter];
  const share = divide(BigInt(each) * BigInt(WHOLE), value) / PERCENT_SCALE;
  return { below: share, above: share };
}

interface Usual {
  readonly asOf: IsoDate;
  readonly source: Provenance;
  readonly aluminium: Tolerance;
  readonly other: Tolerance;
}

const USUAL: Usual = {
  asOf: "2026-11-25",
  source: { basis: "common practice, no source", note: "10 uF stands in for 8 uF; no tolerance band on a resistor means 20 %" },
  aluminium: { below: 20, above: 50 },
  other: { below: 20, above: 20 },
};

/** For an original without a marked tolerance. */
export const usualTolerance = ({ dielectric }: PartType): Tolerance =>
  dielectric === "aluminium" ? USUAL.aluminium : USUAL.other;

const VOLTS = /^(\d+(?:[.,]\d+)?)W?V(?:DC)?W?$/i;
/** Says nothing about the direct voltage. */
const ALTERNATING = /^\d+(?:[.,]\d+)?V(?:AC|~)$/i;
const EVEN = /^±?(\d+(?:[.,]\d+)?)%$/;
const BELOW_ABOVE = /^-(\d+)%?\/?\+(\d+)%$/;
const ABOVE_BELOW = /^\+(\d+)%?\/?-(\d+)%$/;

const toNumber = (text: string | undefined): number => Number(text?.replace(",", "."));

/** Takes the voltage and the tolerance in percent off, as of '8 MFD 450V' or '100n 5% 63V'. `core` has no spaces; micro is u, ohms are Ω, meg is M. */
export function takeRatings(text: string): { core: string; volts?: number; tolerance?: Tolerance } {
  const fields = text
    .replace(/[µμ]/g, "u")
    .replace(/Ω|ohms?/gi, "Ω")
    .replace(/mega?/gi, "M")
    .replace(/\+\/?-/g, "±")
    .replace(/\/(?=[\d.,]+\s*V)|(?<=F)(?=[\d.,]+\s*V)/gi, " ")
    .replace(/(\d)\s+(?=W?V|%)/gi, "$1")
    .replace(/±\s+/g, "±")
    .replace(/V\s+(?=[AD]C)/gi, "V")
    .trim()
    .split(/\s+/);
  let volts: number | undefined;
  let tolerance: Tolerance | undefined;
  while (fields.length > 1) {
    const last = fields.at(-1) ?? "";
    const even = EVEN.exec(last);
    const [, below, above] = BELOW_ABOVE.exec(last) ?? [];
    const [, high, low] = ABOVE_BELOW.exec(last) ?? [];
    if (VOLTS.test(last)) volts = toNumber(VOLTS.exec(last)?.[1]);
    else if (even) tolerance = { below: toNumber(even[1]), above: toNumber(even[1]) };
    else if (below) tolerance = { below: toNumber(below), above: toNumber(above) };
    else if (high) tolerance = { below: toNumber(low), above: toNumber(high) };
    else if (!ALTERNATING.test(last)) break;
    fields.pop();
  }
  return { core: fields.join(""), ...(volts !== undefined && { volts }), ...(tolerance && { tolerance }) };
}
