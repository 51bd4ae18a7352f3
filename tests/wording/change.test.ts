import { describe, expect, it } from "vitest";
import { CAUSES } from "../../src/estimating/agreement/causes.js";
import { CATEGORIES } from "../../src/estimating/agreement/changeSums.js";
import type { FieldChange } from "../../src/estimating/agreement/difference.js";
import type { EstimateInput } from "../../src/estimating/input.js";
import { categoryText, causesText, fieldText, figureText, markText, rowTitle, signedMoney } from "../../src/wording/change.js";
import { changeList, ECHO, ORGAN } from "../estimating/agreement/demo.js";

const tongue = { locale: "en-GB", currency: "GBP" };

describe("what changed", () => {
  it.each<[FieldChange, string]>([
    [{ field: "count", before: 4, after: 6 }, "count 6 instead of 4"],
    [
      { field: "assembly", before: "Top divider board", after: "Supply board" },
      "assembly Supply board instead of Top divider board",
    ],
    [
      { field: "operation", before: "Replace", after: "Resolder joints, each" },
      "operation Resolder joints, each instead of Replace",
    ],
    [
      { field: "part", before: "Electrolytic 47 µF", after: "Electrolytic 10 µF" },
      "part Electrolytic 10 µF instead of Electrolytic 47 µF",
    ],
    [{ field: "part", after: "Electrolytic 10 µF" }, "part Electrolytic 10 µF instead of none"],
    [{ field: "reason", before: "hum", after: "hum and hiss" }, "reason: hum and hiss"],
    [{ field: "reason", before: "hum" }, "reason taken out"],
    [
      { field: "certainty", before: { is: "if found", probability: 0.25 }, after: { is: "planned" } },
      "now planned instead of if found (chance 25%)",
    ],
    [
      { field: "certainty", before: { is: "optional", chosen: true }, after: { is: "optional", chosen: false } },
      "now an option, not chosen instead of an option, chosen",
    ],
    [
      { field: "time each", after: { low: 1, likely: 2, high: 4 } },
      "time each between 1\u00a0min and 4\u00a0min, most likely 2\u00a0min instead of none",
    ],
    [{ field: "original" }, "what is fitted now"],
    [{ field: "part price" }, "the part's price"],
    [{ field: "part source" }, "where the part comes from"],
    [{ field: "fixed price", before: 8000, after: 9550 }, "price each £95.50 instead of £80.00"],
    [{ field: "labour class", before: "Bench work", after: "Alignment" }, "charged as Alignment instead of Bench work"],
    [{ field: "minutes", before: 12, after: 90 }, "time 1\u00a0h 30\u00a0min instead of 12\u00a0min"],
    [{ field: "unit price", before: 300_000, after: 425_000 }, "each ≈ £0.43 instead of £0.30"],
    [{ field: "amount", before: 120, after: 360 }, "amount £3.60 instead of £1.20"],
  ])("%o", (change, text) => expect(fieldText(change, tongue)).toBe(text));

  it("says the figures beside the total with what they were", () => {
    expect(figureText({ figure: "total", before: 36000, after: 41200 }, tongue)).toBe("Total £412.00 instead of £360.00");
    expect(figureText({ figure: "days", before: 3, after: 1 }, tongue)).toBe("About 1 day to complete instead of 3");
    expect(figureText({ figure: "valid until", before: "2026-12-25", after: "2026-12-27" }, tongue)).toBe(
      "Valid until 27 December 2026 instead of 25 December 2026",
    );
    expect(figureText({ figure: "if declined", before: 0, after: 100 }, tongue)).toBe(
      "If declined after opening £1.00 instead of £0.00",
    );
  });

  it("tells a rise from a fall by its sign", () => {
    expect([signedMoney(1250, tongue), signedMoney(-1250, tongue), signedMoney(0, tongue)]).toEqual([
      "+£12.50",
      "-£12.50",
      "£0.00",
    ]);
  });

  it("has a word for each mark, of its own", () => {
    expect((["added", "dropped", "corrected", "price changed", "rounding"] as const).map((mark) => markText(mark))).toEqual([
      "Added",
      "Dropped",
      "Corrected",
      "Price changed",
      "Rounding",
    ]);
  });

  it("names a row as its document does", () => {
    const after: EstimateInput = {
      ...ORGAN,
      toOpen: ["transformer"],
      items: ORGAN.items.filter(({ id }) => id !== "w34"),
      policy: { ...ORGAN.policy, discount: { percent: 10, reason: "patience" } },
    };
    const titles = new Map(changeList(ORGAN, after)!.rows.map((row) => [`${row.is} ${row.id}`, rowTitle(row, tongue)]));
    expect(titles.get("line labour:w34")).toBe("Output board and jacks: Clean jacks");
    expect(titles.get("line access:transformer")).toBe("Open and refit Mains transformer");
    expect(titles.get("adjustment discount")).toMatch(/^Discount 10% of £.*: patience$/);
    const left: EstimateInput = { ...ECHO, items: ECHO.items.filter(({ id }) => id !== "w20" && id !== "w17") };
    const gone = changeList(ECHO, left)!.rows.filter(
      ({ is, mark }) => mark === "dropped" && (is === "option" || is === "if found"),
    );
    expect(gone.map((row) => rowTitle(row, tongue))).toEqual([
      "Option: Supply board: Replace, Mains lead, moulded plug, 3 m",
      "If found: Head bridge: Replace, Play head, half track",
    ]);
  });
});

describe("money by cause", () => {
  it("has a text of its own for every cause and category", () => {
    for (const texts of [CAUSES.map((cause) => causesText({ cause, amount: 1, items: [] })), CATEGORIES.map(categoryText)]) {
      expect(new Set(texts).size).toBe(texts.length);
      for (const text of texts) expect(text).toMatch(/^[A-Z]/);
    }
  });

  it("names the causes together that could not be told apart", () => {
    expect(causesText({ cause: "prices", together: ["corrected"], amount: 1, items: [] })).toBe(
      "Prices and rates that changed and work and counts corrected",
    );
    expect(causesText({ cause: "extra faults", amount: 1, items: [] })).toBe("Faults found since");
  });
});
