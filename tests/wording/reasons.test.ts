import { describe, expect, it } from "vitest";
import type { TaxRounding } from "../../src/estimating/input.js";
import type { ScarcityReason, Source, Warning, Why } from "../../src/estimating/sheet.js";
import { adjustmentTitle } from "../../src/wording/line.js";
import { fastenersText } from "../../src/wording/list.js";
import {
  detailText,
  ruleText,
  scarcityText,
  sourceText,
  taxRoundingText,
  warningText,
  whyText,
} from "../../src/wording/reasons.js";

const tongue = { locale: "en-GB", currency: "GBP" };
const plain = (text: string) => text.replaceAll("\u00a0", " ");

describe("why", () => {
  it.each<[Why, string]>([
    [{ rule: "worked" }, "Work is done on it."],
    [{ rule: "in the way of", of: ["Divider 2", "Divider 3"] }, "It must come off to reach Divider 2 and Divider 3."],
    [{ rule: "joined to", to: ["Preset board"] }, "It comes out together with Preset board."],
    [
      { rule: "by standard", size: "small", mounting: "on top", lowMinutes: 4, highMinutes: 18 },
      "Timed by the rate book's standard for a small board on top: 4 min to 18 min.",
    ],
    [{ rule: "leads", leads: 2, minutesEach: 2.386, setupMinutes: 8 }, "2 leads each: 2.4 min apiece, and 8 min to set up."],
    [{ rule: "leads", leads: 1, minutesEach: 1, setupMinutes: 0 }, "1 lead each: 1 min apiece."],
    [{ rule: "each", minutesEach: 1.2, setupMinutes: 3, setups: 1 }, "1.2 min each, and 3 min to set up."],
    [{ rule: "each", minutesEach: 1.2, setupMinutes: 3, setups: 4 }, "1.2 min each, and 3 min to set up 4 times."],
    [
      { rule: "each", minutesEach: 1.2, setupMinutes: 3, setups: 1, gradePercent: 110 },
      "1.2 min each, and 3 min to set up; 110% of that in this condition.",
    ],
    [
      { rule: "leads", leads: 2, minutesEach: 3, setupMinutes: 0, gradePercent: 130 },
      "2 leads each: 3 min apiece; 130% of that in this condition.",
    ],
    [{ rule: "each", minutesEach: 60, setupMinutes: 0, setups: 1 }, "1 h each."],
    [
      { rule: "scarcity", scarcity: "donor only", percent: 45, because: { is: "donor pulls only" } },
      "Donor only: only to be had from donor units, and not every piece will be good; 45% of its cost covers pieces that turn out bad or dearer.",
    ],
    [{ rule: "increment", minutes: 673.2, increment: 15 }, "11 h 13 min in all, billed in steps of 15 min."],
    [{ rule: "minimum", minimum: 4800 }, "Brings labour and access up to the minimum charge of £48.00."],
    [{ rule: "credited" }, "Taken off if the work goes ahead."],
    [{ rule: "storage days", days: 1 }, "Stored for 1 day."],
    [{ rule: "reason", text: "The owner asked." }, "The owner asked."],
  ])("%j", (why, text) => expect(plain(whyText(why, tongue))).toBe(text));
});

describe("scarcity", () => {
  it.each<[ScarcityReason, string]>([
    [{ is: "set by hand" }, "said so by the shop"],
    [{ is: "on the shelf", stock: 12 }, "12 on the shelf"],
    [{ is: "new parts offered", sources: 1 }, "still made; offered new by 1 source"],
    [{ is: "few sources", sources: 1 }, "no longer made; only 1 source found"],
    [{ is: "several sources", sources: 3 }, "no longer made, but 3 sources found"],
    [{ is: "not enough offered", offered: 1, needed: 3 }, "about 1 good one is to be had and 3 are needed"],
    [{ is: "not enough offered", offered: 0, needed: 1 }, "about 0 good ones are to be had and 1 is needed"],
    [{ is: "old offers only", newest: "2026-06-18" }, "the newest offer is of 18 June 2026"],
    [{ is: "donor pulls only" }, "only to be had from donor units, and not every piece will be good"],
    [{ is: "no offers" }, "no offer is on record"],
    [{ is: "usual part" }, "a usual part, counted by type"],
  ])("%j", (reason, text) => expect(plain(scarcityText(reason, tongue))).toBe(text));
});

describe("source", () => {
  it.each<[Source, string]>([
    [{ is: "item", id: "w01" }, "Work item w01."],
    [{ is: "assembly", id: "shelf", name: "Shelf" }, "Assembly Shelf."],
    [{ is: "boards", size: "large", mounting: "on top", count: 2 }, "Counted: 2 large boards on top."],
    [{ is: "operation", id: "replace", name: "Replace" }, "Operation Replace."],
    [{ is: "rate book", entry: "/fees/rushPercent" }, "Rate book entry /fees/rushPercent."],
    [{ is: "offer", id: "o1", source: "Pindrake", on: "2026-11-18" }, "Offer from Pindrake of 18 November 2026."],
    [{ is: "stock", kind: "el-10u-50" }, "From the shop's shelf."],
    [{ is: "policy", entry: "/discount" }, "Decided for this estimate: /discount."],
    [{ is: "rule", rule: "storage" }, "Storage is charged by the day."],
  ])("%j", (source, text) => expect(plain(sourceText(source, tongue))).toBe(text));

  it("says each rule in one sentence", () => {
    expect(ruleText("access charged once per opening")).toBe(
      "Opening and refitting an assembly is charged once, however much is done inside.",
    );
    expect(ruleText("freight once per source")).toMatch(/^Freight .*\.$/);
  });
});

describe("adjustments", () => {
  const shared = { id: "a", charge: true, amount: 1000, taxCategory: "standard", taxClass: "parts", from: [] } as const;
  it("says the rate, the base and the reason where there are any", () => {
    expect(
      adjustmentTitle({ ...shared, sort: "discount", charge: false, percent: 5, base: 20000, reason: "introduced" }, tongue),
    ).toBe("Discount 5% of £200.00: introduced");
    expect(adjustmentTitle({ ...shared, sort: "rush", percent: 30, base: 10000 }, tongue)).toBe("Rush charge 30% of £100.00");
    expect(adjustmentTitle({ ...shared, sort: "freight", reason: "Pindrake" }, tongue)).toBe("Freight: Pindrake");
    expect(adjustmentTitle({ ...shared, sort: "sundries" }, tongue)).toBe("Sundries");
  });
});

it("names fasteners with their number", () => {
  expect(
    fastenersText([
      { kind: "screw", count: 1 },
      { kind: "unkeyed connector", count: 1 },
      { kind: "glue", count: 2 },
    ]),
  ).toBe("1 screw, 1 unkeyed connector, to be marked and 2 glue joints");
  expect(fastenersText([])).toBe("");
});

it("says what a level of detail rests on", () => expect(`Access is reckoned ${detailText("map")}.`).toContain("teardown map"));

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

it.each<[TaxRounding, string]>([
  [
    { level: "group", mode: "half up" },
    "Tax is worked out and rounded once for each tax category; halves are rounded away from zero.",
  ],
  [
    { level: "document", mode: "down" },
    "Tax is worked out exactly and rounded once for the whole document; fractions are dropped.",
  ],
  [{ level: "line", mode: "half down" }, "Tax is worked out and rounded for each line; halves are rounded towards zero."],
  [
    { level: "line", mode: "half up", extraDigits: 1 },
    "Tax is worked out and rounded for each line to 1 more digit than the currency has; halves are rounded away from zero.",
  ],
])("%j", (rule, text) => expect(taxRoundingText(rule)).toBe(text));
