import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { advanceOf, Missing, shape } from "../../../src/documents/type/shape.js";
import { wrap } from "../../../src/documents/type/wrap.js";

const glyphs = (text: string) => shape(text, "regular", new Missing());
const lines = (text: string, room: number) => wrap(glyphs(text), room).map(({ from, to }) => text.slice(from, to).trimEnd());

describe("breaking text into lines", () => {
  it("breaks at the last space that fits", () => {
    expect(lines("one two three", advanceOf(glyphs("one two")))).toEqual(["one two", "three"]);
  });

  it("breaks a word only when the word alone is too wide", () => {
    expect(lines("a 000000 b", 1800)).toEqual(["a", "000", "000", "b"]);
  });

  it("breaks the word it carries over once more where that is still too wide", () => {
    expect(lines("a aWW", 2195)).toEqual(["a", "aW", "W"]);
  });

  it("does not part a figure from its currency at a no-break space", () => {
    expect(lines("total 1234\u00a0€", 4000)).toEqual(["total", "1234\u00a0€"]);
  });

  it("gives one empty line for an empty text", () => {
    expect(wrap([], 1000)).toEqual([{ from: 0, to: 0, advance: 0 }]);
  });

  it("loses no glyph, keeps their order, and never passes the margin", () => {
    const letters = fc.string({ unit: fc.constantFrom("a", "W", "i", " ", "-"), maxLength: 200 });
    fc.assert(
      fc.property(letters, fc.integer({ min: 1, max: 9000 }), (text, room) => {
        const shaped = glyphs(text);
        const broken = wrap(shaped, room);
        const printed = broken.map(({ from, to }) => text.slice(from, to)).join("");
        expect(printed.replaceAll(" ", "")).toBe(text.replaceAll(" ", ""));
        for (const { from, to, advance } of broken) {
          const seen = text.slice(from, to).trimEnd();
          const leading = text.slice(from, to).length - text.slice(from, to).trimStart().length;
          if (seen.length - leading > 1) expect(advance).toBeLessThanOrEqual(room + leading * 236);
          expect(advance).toBeGreaterThanOrEqual(advanceOf(glyphs(seen)) - 0.001);
        }
      }),
    );
  });
});
