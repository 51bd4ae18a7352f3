import { describe, expect, it } from "vitest";
import demoBook from "../../../fixtures/demo/rate-book.json";
import type { EstimateInput, RateBook } from "../../../src/estimating/input.js";
import { item, lineOf, on, sheet } from "../cast/organ.js";
import { about, PLAIN } from "../cast/plainBook.js";

const bare = (items: EstimateInput["items"], given: Partial<EstimateInput> = {}) =>
  sheet({ items, alreadyOpen: ["low", "panel", "rail"], ...given });
const worn = { maker: "Threnwick", model: "Cadence 3", grade: "worn" };

describe("the minutes of an item", () => {
  it("are one set-up and the unit time for each count", () => {
    // Clean: 4 to set up, 3 each.
    const line = lineOf(bare([on("low", "a", { count: 5 })]), "labour:a");
    expect(line).toMatchObject({ count: 5, minutes: 19, amount: 1900 });
    expect(line.why).toEqual({ rule: "each", minutesEach: 3, setupMinutes: 4, setups: 1 });
  });

  it("set up once for one operation on one assembly, however many items it has", () => {
    const items = [on("low", "b"), on("low", "a"), on("top", "c"), on("low", "d", { operation: "adjust" })];
    const { lines } = bare(items);
    const minutes = Object.fromEntries(lines.map(({ id, minutes }) => [id, minutes]));
    // The item whose id sorts first bears it.
    expect(minutes).toEqual({ "labour:a": 7, "labour:b": 3, "labour:c": 7, "labour:d": 15 });
  });

  it("derive from the leads of what is replaced: desolder, clear, fit, solder and inspect each", () => {
    const items = [
      on("low", "cap", { operation: "replace", count: 2, part: { type: "capacitor" } }),
      on("top", "dip", { operation: "replace", count: 1, part: { type: "dip-40" } }),
      on("rail", "valve", { operation: "replace", count: 4, part: { type: "valve" } }),
    ];
    const result = bare(items);
    // 8 to set up; 2 handling and half a minute per lead; a plugged valve takes 1.
    expect(lineOf(result, "labour:cap")).toMatchObject({
      minutes: 8 + 2 * (2 + 1),
      why: { rule: "leads", leads: 2, minutesEach: 3 },
    });
    expect(lineOf(result, "labour:dip")).toMatchObject({
      minutes: 8 + 2 + 20,
      why: { rule: "leads", leads: 40, minutesEach: 22 },
    });
    expect(lineOf(result, "labour:valve")).toMatchObject({ minutes: 8 + 4 * (2 + 1), why: { rule: "each", minutesEach: 3 } });
    expect(lineOf(result, "labour:dip").from).toContainEqual({ is: "rate book", entry: "/leads" });
    expect(lineOf(result, "labour:dip").from).toContainEqual({ is: "rate book", entry: "/partTypes/1" });
  });

  it("count the leads of the part kind where it has its own", () => {
    const kinds = [{ id: "can", type: "capacitor", name: "Four-section can", leads: 5 }];
    const items = [on("low", "a", { operation: "replace", part: { kind: "can" } })];
    expect(lineOf(bare(items, { kinds }), "labour:a")).toMatchObject({
      minutes: 8 + 2 + 2.5,
      part: { name: "Four-section can" },
    });
  });

  it("are the shop's own where the item says so, set-up apart", () => {
    const items = [on("low", "a", { operation: "replace", part: { type: "dip-40" }, count: 2, minutes: about(7.5) })];
    const line = lineOf(bare(items), "labour:a");
    expect(line).toMatchObject({ minutes: 8 + 15 });
    expect(line.from).not.toContainEqual({ is: "rate book", entry: "/leads" });
  });

  it("use the part's time only for a replacement: cleaning a 40-lead socket is cleaning", () => {
    expect(lineOf(bare([on("low", "a", { part: { type: "dip-40" } })]), "labour:a")).toMatchObject({ minutes: 7 });
  });

  it("grow with the condition of the unit, to the thousandth of a minute", () => {
    const result = bare([on("low", "a", { minutes: about(0.333) })], { unit: worn });
    expect(lineOf(result, "labour:a")).toMatchObject({ minutes: 6.5, amount: 650, why: { gradePercent: 150 } });
    expect(result.time.spread).toEqual({ low: 3.251, likely: 6.5, high: 12.999 });
  });

  // Common practice, no source: forty joints take longer than two.
  it("cost more for a 40-pin IC than for a capacitor in the demo rate book too", () => {
    const rateBook = demoBook as RateBook;
    const of = (type: string) =>
      lineOf(
        bare([on("low", "a", { operation: "replace", part: { type } })], {
          currency: "GBP",
          unit: { ...worn, grade: "sound" },
          rateBook: { ...rateBook, billing: { incrementMinutes: 0, minimumCharge: 0 } },
        }),
        "labour:a",
      ).amount;
    expect(of("ic-40")).toBeGreaterThan(of("ic-16"));
    expect(of("ic-16")).toBeGreaterThan(of("electrolytic"));
  });
});

describe("unattended time", () => {
  const soak = item("soak", { operation: "soak", count: 8 });

  it("is priced by its own rate, and the condition of the unit does not lengthen it", () => {
    const result = sheet({ items: [soak], unit: worn });
    expect(lineOf(result, "labour:soak")).toMatchObject({ minutes: 480, amount: 4800 });
    expect(result.time).toMatchObject({ attended: 0, unattended: 480, billed: 480 });
  });

  it("is not billed in steps, and takes days of its own", () => {
    const rateBook = { ...PLAIN, billing: { incrementMinutes: 900, minimumCharge: 0 } };
    const result = sheet({ items: [item("soak", { operation: "soak", count: 25 })], rateBook });
    expect(result.lines).toHaveLength(1);
    expect(result.days).toEqual({ total: 2, queue: 0, lead: 0, bench: 2 });
  });

  it("may be free", () => {
    const labourClasses = PLAIN.labourClasses.map((each) => (each.id === "soak" ? { ...each, ratePerHour: 0 } : each));
    expect(lineOf(sheet({ items: [soak], rateBook: { ...PLAIN, labourClasses } }), "labour:soak").amount).toBe(0);
  });

  it("can be the class of access: then the condition does not count either", () => {
    const result = sheet({ items: [on("rail", "a", { count: 1 })], unit: worn, rateBook: { ...PLAIN, accessClass: "soak" } });
    expect(lineOf(result, "access:rail")).toMatchObject({ minutes: 3, amount: 30 });
  });
});

describe("work on the unit as a whole", () => {
  const boards = (count: number) => [{ size: "small", mounting: "on top", count } as const];
  const setups = (given: Partial<EstimateInput>) => {
    const { why } = lineOf(sheet({ items: [item("a", { count: 6 })], ...given }), "labour:a");
    return why?.rule === "each" ? why.setups : undefined;
  };

  it("is set up once when no boards are counted", () => {
    expect(setups({})).toBe(1);
  });

  it("is set up on each board that is counted or named to be opened", () => {
    expect(setups({ boards: boards(4) })).toBe(4);
    expect(setups({ boards: boards(2), toOpen: ["low", "low", "rail"] })).toBe(4);
  });

  it("is never set up more often than there is something to do", () => {
    expect(setups({ boards: boards(40) })).toBe(6);
  });

  it("shares its set-ups between items of one operation", () => {
    const result = sheet({ items: [item("b", { count: 2 }), item("a", { count: 1 })], boards: boards(40) });
    expect(lineOf(result, "labour:a")).toMatchObject({ minutes: 3 * 4 + 3, why: { setups: 3, setupMinutes: 12 } });
    expect(lineOf(result, "labour:b")).toMatchObject({ minutes: 6, why: { setups: 0 } });
  });

  it("is not set up more often because other work is added to a board", () => {
    const alone = lineOf(sheet({ items: [item("a", { count: 6 })] }), "labour:a");
    expect(lineOf(sheet({ items: [item("a", { count: 6 }), on("low"), on("rail")] }), "labour:a")).toEqual(alone);
  });

  it("is set up once for the unit where the book sets up replacements alone on each board", () => {
    const plain: RateBook = PLAIN;
    const rateBook = { ...plain, billing: { ...plain.billing, setUps: "replacements" } } as const;
    expect(plain.operations.find(({ id }) => id === item("a").operation)!.sort).not.toBe("replacement");
    expect(setups({ rateBook, boards: boards(4) })).toBe(1);
    const replaced = item("r", { operation: "replace", count: 6, part: { type: plain.partTypes[0]!.id } });
    const minutes = (book: EstimateInput["rateBook"]) =>
      lineOf(sheet({ rateBook: book, items: [replaced], boards: boards(4) }), "labour:r").minutes;
    expect(minutes(rateBook)).toBe(minutes(plain));
  });
});
