import { expect, it } from "vitest";
import { day } from "../../src/wording/index.js";

it("prints a day in the reader's locale", () => {
  expect(day("2026-11-25", "en-GB")).toBe("25 November 2026");
  expect(day("2026-11-25", "en-US")).toBe("November 25, 2026");
  expect(day("2026-11-25", "cs-CZ")).toBe("25. listopadu 2026");
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

it("prints the common calendar and Latin digits, in any locale", () => expect(day("2026-11-25", "fa-IR")).toContain("2026"));

it("leaves text that is no day as it stands", () => {
  expect(day("soon", "en-GB")).toBe("soon");
  expect(day("2026-13-45", "en-GB")).toBe("2026-13-45");
});
