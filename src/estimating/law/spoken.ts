/** A spoken agreement: who agreed, who heard it and when; and what a law profile asks beside that, such as the particulars that 16 CCR 2722(a) lists. */
import { isDay } from "../day.js";
import type { IsoDate, Minor } from "../input.js";

export interface SpokenAgreement {
  readonly date: IsoDate;
  /** Time of day where the shop is, 00:00 to 23:59. */
  readonly time: string;
  readonly authoriser: string;
  readonly receiver: string;
  /** Or how they were reached, when nobody telephoned. */
  readonly numberCalled?: string;
  /** 'none' when there were none: it must be said. */
  readonly conditions?: string;
  readonly extraPartsAndLabour?: string;
  /** Tax counted or not, as the job's profile says. */
  readonly additionalCost?: Minor;
}

export type SpokenField = keyof SpokenAgreement;

const text = (value: unknown): boolean => typeof value === "string" && value.trim() !== "";

const FILLED: Readonly<Record<SpokenField, (value: unknown) => boolean>> = {
  date: (value) => typeof value === "string" && isDay(value),
  time: (value) => typeof value === "string" && /^([01]\d|2[0-3]):[0-5]\d$/.test(value),
  authoriser: text,
  numberCalled: text,
  receiver: text,
  conditions: text,
  extraPartsAndLabour: text,
  additionalCost: (value) => Number.isSafeInteger(value) && (value as number) >= 0,
};

export const SPOKEN_FIELDS = Object.keys(FILLED) as SpokenField[];

/** Of every shop's record. */
const ALWAYS: readonly SpokenField[] = ["date", "time", "authoriser", "receiver"];

/** Fields that are absent, empty or unreadable, in the order of the rule. Empty: the record is complete. `beside`: what the law profile adds. */
export const missingSpokenFields = (spoken: Partial<SpokenAgreement>, beside: readonly SpokenField[]): SpokenField[] =>
  SPOKEN_FIELDS.filter((field) => (ALWAYS.includes(field) || beside.includes(field)) && !FILLED[field](spoken[field]));
