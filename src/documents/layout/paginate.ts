import type { Strip } from "./strip.js";

/** A strip at its place; `top` in points from the top of the text area. */
export interface Placed {
  readonly strip: Strip;
  readonly top: number;
  /** Printed again only to head a continued table. */
  readonly repeated: boolean;
}

/** A head higher than this share of a page is not repeated: it would leave no room for what it heads. */
const HEAD_SHARE = 1 / 3;

/**
 * Places strips on pages whose text areas are `first` and then `further` points high. Strips kept together move to the next page
 * as one, and one that starts a page always does; when even an empty page cannot hold them they are broken where the page ends.
 */
export function paginate(strips: readonly Strip[], first: number, further: number): Placed[][] {
  const pages: Placed[][] = [[]];
  let used = 0;
  /** Whether the page holds more than repeated heads. */
  let begun = false;
  const place = (strip: Strip, repeated: boolean): void => {
    const page = pages.at(-1)!;
    const top = page.length === 0 ? 0 : used + strip.before;
    page.push({ strip, top, repeated });
    used = top + strip.height;
    begun ||= !repeated;
  };
  const repeatable = ({ head = [] }: Strip): readonly Strip[] => (heightOf(head) < further * HEAD_SHARE ? head : []);
  const turn = (next: Strip): void => {
    pages.push([]);
    used = 0;
    begun = false;
    for (const strip of repeatable(next)) place(strip, true);
  };
  const fits = (height: number): boolean => used + height <= (pages.length === 1 ? first : further);
  for (let at = 0; at < strips.length; ) {
    let end = at + 1;
    while (end < strips.length && strips[end - 1]!.keep) end += 1;
    const group = strips.slice(at, end);
    const height = heightOf(group);
    if (begun && group[0]!.turn) turn(group[0]!);
    if (begun && !fits(height) && height <= further - heightOf(repeatable(group[0]!))) turn(group[0]!);
    for (const strip of group) {
      if (begun && !fits(strip.before + strip.height)) turn(strip);
      place(strip, false);
    }
    at = end;
  }
  return pages;
}

const heightOf = (strips: readonly Strip[]): number => strips.reduce((sum, { before, height }) => sum + before + height, 0);
