import { expect, it } from "vitest";
import type { Warning } from "../../src/estimating/sheet.js";
import { warningText } from "../../src/wording/index.js";

const tongue = { locale: "en-GB", currency: "GBP" };

it.each<[Warning, string]>([
  [
    { is: "value share", percent: 62.5, limit: 50, total: 62500, declared: 100000 },
    "The total of £625.00 is 62.5% of the declared value of £1,000.00, more than the 50% the shop flags; ask the owner whether the unit is worth it to them.",
  ],
  [
    { is: "lower voltage", item: "w1", part: "Electrolytic 10u", original: 500, replacement: 450 },
    "Electrolytic 10u is rated 450 V, the original 500 V; choose a rating at least as high.",
  ],
  [
    { is: "derating", item: "w1", part: "Tantalum 10u", working: 12.5, rated: 16, limitPercent: 50 },
    "Tantalum 10u would work at 12.5 V of its rated 16 V, above the usual 50%; choose a higher rating.",
  ],
  [
    { is: "polarised", item: "w1", part: "Electrolytic 1u" },
    "Electrolytic 1u is polarised and the original is not; choose a bipolar or film part, or check the bias across it.",
  ],
  [
    { is: "not audio grade", item: "w1", part: "Electrolytic 22u" },
    "Electrolytic 22u is not marked as audio grade and the original is; choose an audio-grade part or agree the change with the owner.",
  ],
  [
    { is: "value off", item: "w1", part: "Electrolytic 10u", offPercent: 25, tolerancePercent: 20 },
    "Electrolytic 10u is 25% off the original value, beyond the original tolerance of 20%; check that the circuit allows it.",
  ],
  [
    { is: "value unreadable", item: "w1", part: "Film", marking: "??" },
    "The marking '??' of Film could not be read, so its value was not compared; check it by hand.",
  ],
  [
    { is: "old offer", offer: "o1", part: "Motor", on: "2026-06-18", days: 160 },
    "The price of Motor rests on an offer of 18 June 2026, 160 days old; ask again before ordering.",
  ],
  [
    { is: "not enough offered", part: "Divider", needed: 4, offered: 1 },
    "4 of Divider are needed and 1 is offered; find another source before the work is agreed.",
  ],
  [
    { is: "access by standard", lowMinutes: 20, likelyMinutes: 45, highMinutes: 130 },
    "Access is by the rate book's standards, not by a teardown map: between 20 min and 2 h 10 min, most likely 45 min.",
  ],
  [
    { is: "above ceiling", total: 60000, ceiling: 50000 },
    "The total of £600.00 is above the owner's ceiling of £500.00; drop work or agree a higher ceiling before starting.",
  ],
  [
    { is: "discount limited", asked: 9000, given: 4000 },
    "A discount of £90.00 was asked for and £40.00 given, because a discount cannot exceed what it is taken from.",
  ],
  [
    { is: "currency scale", currency: "KWD", decimals: 3 },
    "KWD has 3 decimals and an EN 16931 document carries at most 2; an electronic copy may be rounded.",
  ],
  [
    { is: "missing glyphs", text: "山田", characters: ["山", "田"] },
    "The fonts have no sign for 山 and 田 in '山田'; a mark is printed instead.",
  ],
])("%j", (warning, text) => expect(warningText(warning, tongue).replaceAll("\u00a0", " ")).toBe(text));
