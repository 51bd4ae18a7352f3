/** Takes the voltage and the tolerance in percent off the end of a marking, such as '8 MFD 450V' or '100n 5% 63V'. */
import type { Tolerance } from "./tolerance.js";

const VOLTS = /^(\d+(?:[.,]\d+)?)W?V(?:DC)?W?$/i;
/** Says nothing about the direct voltage. */
const ALTERNATING = /^\d+(?:[.,]\d+)?V(?:AC|~)$/i;
const EVEN = /^±?(\d+(?:[.,]\d+)?)%$/;
const BELOW_ABOVE = /^-(\d+)%?\/?\+(\d+)%$/;
const ABOVE_BELOW = /^\+(\d+)%?\/?-(\d+)%$/;

const toNumber = (text: string | undefined): number => Number(text?.replace(",", "."));

/** `core` has no spaces; micro is u, ohms are Ω, meg is M. */
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
