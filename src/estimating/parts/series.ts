/** Preferred values of resistors and capacitors. Read from the tables: eight values of E24 and one of E192 break the formula. */
import type { IsoDate, Percent, Provenance } from "../input.js";

export type SeriesName = "E3" | "E6" | "E12" | "E24" | "E48" | "E96" | "E192";

interface Series {
  readonly tolerancePercent: Percent;
  /** One decade, in two or three digits. */
  readonly values: readonly number[];
}

const E24 = [10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91];
const E192 = [
  100, 101, 102, 104, 105, 106, 107, 109, 110, 111, 113, 114, 115, 117, 118, 120, 121, 123, 124, 126, 127, 129, 130, 132, 133,
  135, 137, 138, 140, 142, 143, 145, 147, 149, 150, 152, 154, 156, 158, 160, 162, 164, 165, 167, 169, 172, 174, 176, 178, 180,
  182, 184, 187, 189, 191, 193, 196, 198, 200, 203, 205, 208, 210, 213, 215, 218, 221, 223, 226, 229, 232, 234, 237, 240, 243,
  246, 249, 252, 255, 258, 261, 264, 267, 271, 274, 277, 280, 284, 287, 291, 294, 298, 301, 305, 309, 312, 316, 320, 324, 328,
  332, 336, 340, 344, 348, 352, 357, 361, 365, 370, 374, 379, 383, 388, 392, 397, 402, 407, 412, 417, 422, 427, 432, 437, 442,
  448, 453, 459, 464, 470, 475, 481, 487, 493, 499, 505, 511, 517, 523, 530, 536, 542, 549, 556, 562, 569, 576, 583, 590, 597,
  604, 612, 619, 626, 634, 642, 649, 657, 665, 673, 681, 690, 698, 706, 715, 723, 732, 741, 750, 759, 768, 777, 787, 796, 806,
  816, 825, 835, 845, 856, 866, 876, 887, 898, 909, 920, 931, 942, 953, 965, 976, 988,
];
const every = (step: number, values: readonly number[]) => values.filter((_, at) => at % step === 0);

export const PREFERRED: {
  readonly asOf: IsoDate;
  readonly source: Provenance;
  readonly series: Readonly<Record<SeriesName, Series>>;
} = {
  asOf: "2015-03-01",
  source: { basis: "published", note: "IEC 60063:2015; the three-digit values from memory" },
  series: {
    E3: { tolerancePercent: 40, values: every(8, E24) },
    E6: { tolerancePercent: 20, values: every(4, E24) },
    E12: { tolerancePercent: 10, values: every(2, E24) },
    E24: { tolerancePercent: 5, values: E24 },
    E48: { tolerancePercent: 2, values: every(4, E192) },
    E96: { tolerancePercent: 1, values: every(2, E192) },
    E192: { tolerancePercent: 0.5, values: E192 },
  },
};

/** Preferred values from a decade below to a decade above, ascending; whole units only. */
function around(value: bigint, name: SeriesName): bigint[] {
  const { values } = PREFERRED.series[name];
  const digits = String(values[0]).length;
  const middle = String(value).length - digits;
  return [middle - 1, middle, middle + 1]
    .filter((exponent) => exponent >= 0)
    .flatMap((exponent) => values.map((step) => BigInt(step) * 10n ** BigInt(exponent)));
}

const distance = (a: bigint, b: bigint): bigint => (a > b ? a - b : b - a);

/** The nearest preferred value, the lower of two as near. `value` is positive, in units fine enough to be whole. */
export const nearest = (value: bigint, name: SeriesName): bigint | undefined =>
  around(value, name).reduce<bigint | undefined>(
    (best, each) => (best === undefined || distance(each, value) < distance(best, value) ? each : best),
    undefined,
  );

/** The first preferred value that is not below. */
export const atLeast = (value: bigint, name: SeriesName): bigint | undefined => around(value, name).find((each) => each >= value);
