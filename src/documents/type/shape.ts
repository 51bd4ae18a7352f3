import { type Glyph, glyphOf, MISSING, type Weight } from "./typeface.js";

/** What a document could not print as itself: the text it stood in and the characters, each once. */
export class Missing {
  readonly found = new Map<string, Set<string>>();
  add(text: string, character: string): void {
    const characters = this.found.get(text);
    if (characters) characters.add(character);
    else this.found.set(text, new Set([character]));
  }
}

/** Direction marks, joiners, variation selectors, tags, soft hyphens: they print nothing, and may disguise what does. */
const UNPRINTED = /\p{Default_Ignorable_Code_Point}/u;
/** What belongs to the character before it: combining marks and skin tones. */
const ATTACHED = /[\p{M}\p{Emoji_Modifier}]/u;
const JOINER = "\u200d";
const BREAKS = /\r\n|[\n\r\v\f\u0085\u2028\u2029]/;
const PLAIN = /^[ -~]*$/;

/** Splits a text at its line ends, whatever writes them. */
export const linesOf = (text: string): string[] => text.split(BREAKS);

/** For names and numbers, which have one line whatever was typed. */
export const oneLine = (text: string): string => linesOf(text).join(" ").trim();

/**
 * The glyphs of one line of text, in logical order, NFC first. Line ends and tabs count as spaces. A character that the fonts lack
 * becomes one visible mark, together with what is attached to it, and is noted in `missing`.
 */
export function shape(text: string, weight: Weight, missing: Missing): Glyph[] {
  const glyphs: Glyph[] = [];
  if (PLAIN.test(text)) {
    for (let at = 0; at < text.length; at += 1) glyphs.push(glyphOf(text.charCodeAt(at), weight)!);
    return glyphs;
  }
  let absent = "";
  const note = (): void => {
    if (absent !== "") missing.add(text, absent);
    absent = "";
  };
  for (const character of text.normalize("NFC").replaceAll("\r\n", " ")) {
    const code = character.codePointAt(0)!;
    const glyph = glyphOf(code, weight) ?? (BREAKS.test(character) || character === "\t" ? glyphOf(0x20, weight) : undefined);
    if (absent !== "" && (absent.endsWith(JOINER) || character === JOINER || ATTACHED.test(character))) absent += character;
    else if (glyph) {
      note();
      glyphs.push(glyph);
    } else if (!UNPRINTED.test(character)) {
      note();
      absent = character;
      glyphs.push(glyphOf(MISSING, weight)!);
    }
  }
  note();
  return glyphs;
}

/** Thousandths of the type size. */
export function advanceOf(glyphs: readonly Glyph[], from = 0, to = glyphs.length): number {
  let sum = 0;
  for (let at = from; at < to; at += 1) sum += glyphs[at]!.advance;
  return sum;
}
