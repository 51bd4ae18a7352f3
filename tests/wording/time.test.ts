import { describe, expect, it } from "vitest";
import { money } from "../../src/wording/figures.js";
import { spread } from "../../src/wording/reasons.js";
import { day, duration, moment, spokenIn } from "../../src/wording/time.js";

it("prints a day in English whatever region figures follow, and in another language where that is spoken around it", () => {
  expect(day("2026-11-25", "en-GB")).toBe("25 November 2026");
  expect(day("2026-11-25", "en-US")).toBe("November 25, 2026");
  expect(day("2026-11-25", "de-AT")).toBe("25 November 2026");
  expect(day("2026-12-30", spokenIn("de-AT", "en"))).toBe("30 December 2026");
  expect(day("2027-01-30", spokenIn("de-AT", "de"))).toBe("30. Jänner 2027");
  expect(day("2026-12-30", spokenIn("en-GB", "de"))).toBe("30. Dezember 2026");
  expect(day("2026-12-30", "no locale")).toBe("30 December 2026");
  expect(money(123456, { locale: spokenIn("de-AT", "de"), currency: "EUR" })).toBe(
    money(123456, { locale: "de-AT", currency: "EUR" }),
  );
});

it("prints the same day whatever the time zone of the machine", () => {
  const zone = process.env.TZ;
  for (const elsewhere of ["Pacific/Kiritimati", "Pacific/Pago_Pago"]) {
    process.env.TZ = elsewhere;
    expect(new Intl.DateTimeFormat().resolvedOptions().timeZone).toBe(elsewhere);
    expect(day("2026-01-01", "en-GB")).toBe("1 January 2026");
  }
  if (zone === undefined) delete process.env.TZ;
  else process.env.TZ = zone;
});

it("names the zone as people there do, not by a difference of nothing", () => {
  const at = (locale: string, zone: string) => moment("2026-11-25T10:00:00Z", locale, zone);
  expect([
    at(spokenIn("de-DE", "de"), "Europe/London"),
    at(spokenIn("de-DE", "de"), "Europe/Berlin"),
    at("en-GB", "America/New_York"),
  ]).toEqual([...["25. November 2026 um 10:00 GMT", "25. November 2026 um 11:00 MEZ", "25 November 2026 at 05:00 GMT-5"]]);
});

it("prints the common calendar and Latin digits, in any locale", () => expect(day("2026-11-25", "fa-IR")).toContain("2026"));

it("leaves text that is no day as it stands", () => {
  expect(day("soon", "en-GB")).toBe("soon");
  expect(day("2026-13-45", "en-GB")).toBe("2026-13-45");
});

const read = (minutes: number, locale?: string) => duration(minutes, locale).replaceAll("\u00a0", " ");

describe("duration", () => {
  it.each([
    [0, "0 min"],
    [0.04, "0 min"],
    [2.386, "2.4 min"],
    [45, "45 min"],
    [59.94, "59.9 min"],
    [59.96, "1 h"],
    [60, "1 h"],
    [85, "1 h 25 min"],
    [119.6, "2 h"],
    [600, "10 h"],
    [-15, "-15 min"],
    [-0.01, "0 min"],
  ])("prints %s minutes as %s", (minutes, text) => expect(read(minutes)).toBe(text));

  it("follows the reader's locale", () => expect(read(2.5, "de-DE")).toBe("2,5 min"));

  it("says a three-point time in one phrase", () =>
    expect(spread({ low: 20, likely: 35, high: 90 }).replaceAll("\u00a0", " ")).toBe(
      "between 20 min and 1 h 30 min, most likely 35 min",
    ));
});
