/** Rated voltages of capacitors: those in the trade, and how much of them the working voltage may use. */
import type { IsoDate, PartType, Percent, Provenance } from "../input.js";

interface Dated {
  readonly asOf: IsoDate;
  readonly source: Provenance;
}

/** Volts. */
export const RATED_VOLTAGES: {
  readonly standard: Dated & { readonly volts: readonly number[] };
  readonly trade: Dated & { readonly volts: readonly number[] };
} = {
  standard: {
    asOf: "2016-01-01",
    source: { basis: "from memory", note: "IEC 60384-4:2016 clause 2.2.3, preferred values of R5" },
    volts: [1.6, 2.5, 4, 6.3, 10, 16, 25, 40, 63, 100, 160, 250, 400, 630],
  },
  trade: {
    asOf: "2026-11-25",
    source: { basis: "from memory", note: "aluminium electrolytics as sold" },
    volts: [6.3, 10, 16, 25, 35, 50, 63, 80, 100, 160, 200, 250, 315, 350, 400, 450, 500],
  },
};

type Dielectric = NonNullable<PartType["dielectric"]>;

/** Working voltage at most this much of the rated voltage. */
export const DERATING: Readonly<Record<Dielectric, Dated & { readonly limitPercent: Percent }>> = {
  tantalum: {
    asOf: "2026-11-25",
    source: {
      basis: "published",
      note: "manufacturers' notes on solid tantalum: about half the rating, such as a 50 V part on a 24 V rail",
    },
    limitPercent: 50,
  },
  aluminium: { asOf: "2026-11-25", source: { basis: "common practice, no source" }, limitPercent: 80 },
  film: { asOf: "2026-11-25", source: { basis: "common practice, no source", note: "the rating itself" }, limitPercent: 100 },
  other: { asOf: "2026-11-25", source: { basis: "common practice, no source", note: "the rating itself" }, limitPercent: 100 },
};

/** Percent of the rating that a capacitor may work at; undefined for other parts. */
export const deratingLimit = ({ family, dielectric }: PartType): Percent | undefined =>
  family === "capacitor" ? DERATING[dielectric ?? "other"].limitPercent : undefined;

const millivolts = (volts: number): number => Math.round(volts * 1000);

export const isOverDerated = (working: number, rated: number, limitPercent: Percent): boolean =>
  millivolts(working) * 100 > millivolts(rated) * limitPercent;

/** The lowest rating in the trade that suits a working voltage; undefined beyond them all. */
export const ratingFor = (working: number, limitPercent: Percent): number | undefined =>
  RATED_VOLTAGES.trade.volts.find((rated) => !isOverDerated(working, rated, limitPercent));
