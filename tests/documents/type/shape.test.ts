import { describe, expect, it } from "vitest";
import { advanceOf, Missing, oneLine, shape } from "../../../src/documents/type/shape.js";
import { fetchPacksFor, glyphOf, MISSING } from "../../../src/documents/type/typeface.js";

const codes = (text: string, missing = new Missing()) => shape(text, "regular", missing).map(({ code }) => code);
const absentFrom = (text: string): string[] => {
  const missing = new Missing();
  shape(text, "regular", missing);
  return [...missing.found.values()].flatMap((characters) => [...characters]);
};
const mark = glyphOf(MISSING, "regular")!.code;

describe("shaping a line of text", () => {
  it("composes first: an e with a combining acute is one glyph", () => {
    expect(codes("cafe\u0301")).toEqual(codes("caf\u00e9"));
    expect(codes("cafe\u0301")).toHaveLength(4);
  });

  it("draws the Ohm sign, the micro sign and the Greek mu from the basic pack, so that a value needs one pack", () => {
    for (const glyph of shape("4k7 Ω \u2126 2\u00b52 2\u03bc2", "bold", new Missing())) expect(glyph.cut).toBe(1);
    expect(absentFrom("Ω \u2126 µ μ ± ≥ ≤ × → ✓ ° ½ € £ ¥ ₹")).toEqual([]);
  });

  it("prints the full-width yen as the yen, and every kind of space as a space", () => {
    expect(codes("\uffe51")).toEqual(codes("¥1"));
    expect(codes("1\u00a0234\u202f567\u2009890")).toEqual(codes("1 234 567 890"));
  });

  it("lets a line break at a plain space and not at a no-break space", () => {
    expect(shape("a b\u00a0c\u202fd", "regular", new Missing()).map(({ space }) => space)).toEqual([
      false,
      true,
      false,
      false,
      false,
      false,
      false,
    ]);
  });

  it("draws one mark for a character no font has, and names it", () => {
    expect(codes("a日b")[1]).toBe(mark);
    expect(absentFrom("a日b日")).toEqual(["日"]);
  });

  it("draws one mark for a joined emoji, its skin tone and its variation selector", () => {
    expect(codes("👨‍👩‍👧")).toEqual([mark]);
    expect(codes("👍🏽!")).toEqual([mark, ...codes("!")]);
    expect(absentFrom("👨‍👩‍👧 👍🏽")).toEqual(["👨‍👩‍👧", "👍🏽"]);
  });

  it("keeps right-to-left text in the order it was typed, one mark for each letter", () => {
    expect(absentFrom("שלום")).toEqual(["ש", "ל", "ו", "ם"]);
    expect(codes("שלום")).toHaveLength(4);
  });

  it("drops direction marks and zero-width characters, which could disguise a name", () => {
    expect(codes("a\u202eb\u2066c\u200bd\u00ade")).toEqual(codes("abcde"));
  });

  it("marks control characters and lone surrogates instead of failing", () => {
    expect(absentFrom("a\u0007b")).toEqual(["\u0007"]);
    expect(absentFrom("a\ud800b")).toEqual(["\ud800"]);
  });

  it("turns line ends inside a name into one space", () => {
    expect(codes("A\r\nB")).toEqual(codes("A B"));
    expect(oneLine("\r\nBcc: someone")).toBe("Bcc: someone");
  });

  it("has tabular figures: all ten digits are equally wide, in both weights", () => {
    for (const weight of ["regular", "bold"] as const) {
      const widths = [..."0123456789"].map((digit) => advanceOf(shape(digit, weight, new Missing())));
      expect(new Set(widths)).toEqual(new Set([600]));
    }
  });

  it.each([
    ["Czech", "Příliš žluťoučký kůň úpěl ďábelské ódy"],
    ["Polish", "Zażółć gęślą jaźń"],
    ["Turkish", "Pijamalı hasta yağız şoföre çabucak güvendi İIıi"],
    ["Greek", "Ξεσκεπάζω την ψυχοφθόρα βδελυγμία Ω Μ μ"],
    ["Russian", "Съешь же ещё этих мягких французских булок, да выпей чаю"],
    ["Ukrainian", "Чуєш їх, доцю, га? Кумедна ж ти, прощайся без ґольфів"],
  ])("has every letter of %s", async (_, text) => {
    await fetchPacksFor(text);
    expect(absentFrom(text)).toEqual([]);
  });
});
