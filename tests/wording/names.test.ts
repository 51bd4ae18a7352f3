/** Names of the first rate book in an owner's language. The translations are from memory, no source. */
import { describe, expect, it } from "vitest";
import rateBook from "../../fixtures/demo/rate-book.json";
import keyboard from "../../fixtures/demo/string-organ-keyboard.json";
import { estimate } from "../../src/estimating/estimate.js";
import type { EstimateInput, RateBook } from "../../src/estimating/input.js";
import { USUAL } from "../../src/pages/intake/unit.js";
import { bookIn, namesIn, namesWithout } from "../../src/wording/names.js";

const KEYBOARD = keyboard as unknown as EstimateInput;
const BOOK = rateBook as unknown as RateBook;
const SAME = ["Potentiometer", "Diode", "Transistor", "Trimmer", "Motor"];

const namesOf = ({ labourClasses, grades, partTypes, operations, tax, companions = [] }: RateBook): string[] => [
  ...[...labourClasses, ...grades, ...partTypes, ...operations, ...tax.categories].map(({ name }) => name),
  ...companions.map(({ reason }) => reason),
];

describe("the first rate book in German", () => {
  it("has a German name for all that an owner may read", () => {
    const german = namesOf(bookIn({ rateBook: BOOK }, "de").rateBook);
    const left = namesOf(BOOK).filter((name, at) => german[at] === name && !SAME.includes(name));
    expect(left).toEqual([]);
  });

  it("asks for the shop's own words of an option that is not chosen too: the owner reads them all the same", () => {
    const own = {
      id: "own",
      own: { name: "Polish the case", price: 3500 },
      count: 1,
      certainty: { is: "optional", chosen: false },
    } as const;
    const input = { ...KEYBOARD, items: [...KEYBOARD.items, own] };
    const outcome = estimate(input);
    if (!outcome.ok) throw new Error("The demo has problems.");
    expect(namesWithout(outcome.sheet, input, "de")).toContain("Polish the case");
    const why = {
      ...input,
      items: [...KEYBOARD.items, { ...own, certainty: { is: "planned" }, reason: "the lead is cracked" } as const],
    };
    const told = estimate(why);
    if (!told.ok) throw new Error("The demo has problems.");
    expect(namesWithout(told.sheet, why, "de")).toContain("the lead is cracked");
  });

  it("changes no figure, and within names put together only what is the book's", () => {
    const outcome = estimate(KEYBOARD);
    if (!outcome.ok) throw new Error("The demo has problems.");
    const sheet = namesIn(outcome.sheet, "de");
    expect(sheet.totals).toMatchObject({ total: outcome.sheet.totals.total, linesNet: outcome.sheet.totals.linesNet });
    expect(sheet.lines.map(({ id, amount }) => [id, amount])).toEqual(outcome.sheet.lines.map(({ id, amount }) => [id, amount]));
    expect(sheet.options.map(({ names }) => names.join("; "))).toContain("Organ contact rail: Tastenkontakte reinigen × 49");
    expect(namesIn(outcome.sheet, "en")).toBe(outcome.sheet);
  });

  it("calls a shop's own names as the shop does there, over the book's, and changes no id of the same letters", () => {
    const value = { id: "felt", sort: "felt", name: "felt", names: ["felt: Replace × 2", "felted: Replace"], reason: "Replace" };
    expect(namesIn(value, "de", { felt: "Filz", Replace: "Erneuern" })).toEqual({
      ...{ id: "felt", sort: "felt", name: "Filz", reason: "Erneuern" },
      names: ["Filz: Erneuern × 2", "felted: Erneuern"],
    });
    expect(namesIn(value, "en", { felt: "Filz" })).toBe(value);
  });

  it("leaves a shop's own words as it wrote them", () => {
    const own = { name: "Replace the felt", names: ["Lid: Clean a boardroom, Replacement × 2"] };
    expect(namesIn(own, "de")).toEqual(own);
  });
});

it("says every line that is ticked at the intake in German, and leaves what was typed there", () => {
  const ticked = [...USUAL["unit.accessories"], ...USUAL["unit.condition"]];
  const unit = {
    maker: "Quellmarsh",
    model: "Solivane 49",
    accessories: [...ticked, "dust cover"],
    condition: "Dented\none leg short",
  };
  const told = bookIn({ rateBook: BOOK, unit }, "de").unit;
  expect(told.accessories.filter((line, at) => line === unit.accessories[at])).toEqual(["Pedal", "dust cover"]);
  expect(told.condition).toBe("Verbeult\none leg short");
  expect(bookIn({ rateBook: BOOK, unit }, "en").unit).toEqual(unit);
});
