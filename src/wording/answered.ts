import { day } from "./day.js";

/** The owner's answer as the shop has it on record. */
export interface Answered {
  readonly by: string;
  /** ISO 8601, with time and zone where they are known. */
  readonly at: string;
  readonly channel: "page" | "in person" | "telephone" | "e-mail";
}

const CHANNEL: Readonly<Record<Answered["channel"], string>> = {
  page: "on the owner's page",
  "in person": "in person",
  telephone: "by telephone",
  "e-mail": "by e-mail",
};

/** 'Ada Fenwick, 25 November 2026, 10:14 UTC, by telephone'. */
export const answeredText = ({ by, at, channel }: Answered, locale: string): string =>
  [by, dayAndTime(at, locale), CHANNEL[channel]].join(", ");

function dayAndTime(at: string, locale: string): string {
  const [, date, time, zone] = /^(\d{4}-\d\d-\d\d)T(\d\d:\d\d)[\d:.]*(Z|[+-]\d\d:\d\d)$/.exec(at) ?? [];
  if (!date || !time || !zone) return day(at, locale);
  return `${day(date, locale)}, ${time} UTC${zone === "Z" ? "" : zone}`;
}
