import { describe, expect, it } from "vitest";
import { excerpt } from "../../src/pages/shop/find.js";

const shown = (text: string, words: string[]) =>
  excerpt(text, words)
    .map(({ text: piece, hit }) => (hit ? `[${piece}]` : piece))
    .join("");

describe("the part of a text that is shown of what was found", () => {
  it("marks each word where it stands, without case and accents", () => {
    expect(shown("Résumé of the hum; HUM again", ["resume", "hum"])).toBe("[Résumé] of the [hum]; [HUM] again");
  });
  it("marks the longer of two words that begin together, and nothing twice", () => {
    expect(shown("electrolytic", ["elec", "electro"])).toBe("[electro]lytic");
  });
  it("cuts a long text around the first hit, between words", () => {
    const long = `${"filler ".repeat(60)}snare mute ${"more ".repeat(60)}`;
    const text = shown(long, ["snare"]);
    expect(text).toContain("[snare] mute");
    expect(text.startsWith("… filler")).toBe(true);
    expect(text.endsWith(" …")).toBe(true);
    expect(text.length).toBeLessThan(180);
  });
  it("shows the beginning where the words stand elsewhere, and copes with one endless word", () => {
    expect(shown("a short text", ["serial"])).toBe("a short text");
    expect(shown("x".repeat(500), ["zz"])).toHaveLength(162);
    expect(shown("", ["zz"])).toBe("");
  });
});
