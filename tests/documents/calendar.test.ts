/** Reference: ical.js 2.2.1 reads the text back; line lengths and line ends after RFC 5545, 3.1. */
import fc from "fast-check";
import ICAL from "ical.js";
import { describe, expect, it } from "vitest";
import { type CalendarDay, calendar } from "../../src/documents/calendar.js";
import { runs } from "../setup/runs.js";

const MADE = "2026-11-25T09:30:00.000Z";
const DAY: CalendarDay = {
  uid: "job-offer@ohmwright",
  revision: 2,
  on: "2026-12-31",
  title: "Estimate J-2026-0001 ends: Halvard Drumwright 66",
  text: "Last day to agree; ask first,\nthen come \\ or write. Ω µ é — 日本語",
  url: "https://shop.example/o",
};

const readBack = (text: string) =>
  new ICAL.Component(ICAL.parse(text)).getAllSubcomponents("vevent").map((each) => new ICAL.Event(each));

describe("days for a calendar", () => {
  it("are read back by another program as they are: whole days, the end exclusive over the turn of the year", () => {
    const [event] = readBack(calendar([DAY], MADE));
    expect(event!.summary).toBe(DAY.title);
    expect(event!.description).toBe(DAY.text);
    expect(event!.uid).toBe(DAY.uid);
    expect(event!.sequence).toBe(2);
    expect(event!.startDate.isDate).toBe(true);
    expect([event!.startDate.toString(), event!.endDate.toString()]).toEqual(["2026-12-31", "2027-01-01"]);
  });

  it("keep to 75 octets a line, and to CR LF, whatever stands in them", () => {
    fc.assert(
      fc.property(
        fc.string({ unit: "grapheme", maxLength: 300 }),
        fc.string({ unit: "grapheme", maxLength: 100 }),
        (text, title) => {
          const made = calendar([{ ...DAY, text, title }], MADE);
          for (const line of made.split("\r\n")) expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
          expect(made.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
          expect(readBack(made)).toHaveLength(1);
        },
      ),
      runs(100),
    );
  });

  it("cannot be made to hold another line of the format", () => {
    const made = calendar([{ ...DAY, title: "x\r\nEND:VEVENT\r\nATTACH:http://bad.example" }], MADE);
    expect(made.split("\r\n").filter((line) => line.startsWith("ATTACH"))).toEqual([]);
  });

  it("are the same text for the same days", () => {
    expect(calendar([DAY, DAY], MADE)).toBe(calendar([DAY, DAY], MADE));
  });
});
