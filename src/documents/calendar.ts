/** Days as an iCalendar file (RFC 5545): whole days, nobody made busy. The same days give the same text, and a later revision's replace them. */
import { addDays } from "../estimating/day.js";
import type { IsoDate } from "../estimating/input.js";

export interface CalendarDay {
  /** The same from revision to revision. */
  readonly uid: string;
  /** Number of the revision it comes from. */
  readonly revision: number;
  readonly on: IsoDate;
  readonly title: string;
  readonly text: string;
  readonly url?: string;
}

/** `madeAt`: RFC 3339 in UTC. */
export function calendar(days: readonly CalendarDay[], madeAt: string): string {
  const stamp = `${madeAt.slice(0, 19).replaceAll(/[-:]/g, "")}Z`;
  const lines = [
    "BEGIN:VCALENDAR",
    "VERSION:2.0",
    "PRODID:-//Ohmwright//Ohmwright 1//EN",
    "CALSCALE:GREGORIAN",
    ...days.flatMap(({ uid, revision, on, title, text, url }) => [
      "BEGIN:VEVENT",
      `UID:${escaped(uid)}`,
      `DTSTAMP:${stamp}`,
      `SEQUENCE:${revision}`,
      `DTSTART;VALUE=DATE:${on.replaceAll("-", "")}`,
      // The end is the day after (RFC 5545, 3.6.1).
      `DTEND;VALUE=DATE:${addDays(on, 1).replaceAll("-", "")}`,
      `SUMMARY:${escaped(title)}`,
      `DESCRIPTION:${escaped(text)}`,
      ...(url ? [`URL:${url}`] : []),
      "TRANSP:TRANSPARENT",
      "END:VEVENT",
    ]),
    "END:VCALENDAR",
  ];
  return lines.map((line) => `${folded(line)}\r\n`).join("");
}

/** RFC 5545, 3.3.11. Other control characters may not stand in a text. */
const escaped = (text: string): string =>
  text
    .replaceAll(/\r\n?/g, "\n")
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is taken out
    .replaceAll(/[\u0000-\u0009\u000b-\u001f\u007f]/g, " ")
    .replaceAll(/[\\;,]/g, "\\$&")
    .replaceAll("\n", "\\n");

const LONGEST = 75;
const encoder = new TextEncoder();

/** RFC 5545, 3.1: at most 75 octets a line, never within a character; what goes on begins with a space. */
function folded(line: string): string {
  let [out, size] = ["", 0];
  for (const character of line) {
    const octets = encoder.encode(character).length;
    if (size + octets > LONGEST) {
      out += "\r\n ";
      size = 1;
    }
    out += character;
    size += octets;
  }
  return out;
}
