import type { Glyph } from "./typeface.js";

/** One printed line: the glyphs from `from` up to, not including, `to`, and how far they reach. */
interface TextLine {
  readonly from: number;
  readonly to: number;
  readonly advance: number;
}

/**
 * Breaks glyphs into lines no wider than `room` (thousandths of the type size): at the last space that fits, and inside a word
 * only when the word alone is too wide. Of the spaces at a break one stays at the end of its line, unmeasured, so that copied text
 * keeps its words apart. Every other glyph is on exactly one line.
 */
export function wrap(glyphs: readonly Glyph[], room: number): TextLine[] {
  const lines: TextLine[] = [];
  let from = 0;
  let reached = 0;
  /** End of the last whole word of the line, and how far the line reached there. */
  let wordEnd = -1;
  let reachedAtWordEnd = 0;
  for (let at = 0; at < glyphs.length; at += 1) {
    const glyph = glyphs[at]!;
    if (glyph.space) {
      if (at > from && !glyphs[at - 1]!.space) {
        wordEnd = at;
        reachedAtWordEnd = reached;
      }
      reached += glyph.advance;
      continue;
    }
    // Twice where even the word carried over has no room for this glyph.
    while (reached + glyph.advance > room && at > from) {
      const whole = wordEnd > from;
      lines.push({ from, to: whole ? wordEnd + 1 : at, advance: whole ? reachedAtWordEnd : reached });
      from = whole ? wordEnd : at;
      while (from < at && glyphs[from]!.space) from += 1;
      reached = 0;
      for (let back = from; back < at; back += 1) reached += glyphs[back]!.advance;
      wordEnd = -1;
    }
    reached += glyph.advance;
  }
  let to = glyphs.length;
  while (to > from && glyphs[to - 1]!.space) {
    to -= 1;
    reached -= glyphs[to]!.advance;
  }
  lines.push({ from, to, advance: reached });
  return lines;
}
