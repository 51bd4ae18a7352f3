/** Rated voltages of capacitors: those in the trade, and how much of them the working voltage may use. */
import type { IsoDate, PartType, Percent, Provenance } from "../input.js";

interface Dated {
  readonly asOf: IsoDate;
  readonly source: Provenance;
}

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
