import type { Strip } from "./strip.js";

/** A strip at its place; `top` in points from the top of the text area. */
export interface Placed {
  readonly strip: Strip;
  readonly top: number;
  /** Printed again only to head a continued table. */
  readonly repeated: boolean;
}

/**
 * Places strips on pages whose text areas are `first` and then `further` points high. Strips kept together move to the next page
 * as one; when even an empty page cannot hold them they are broken where the page ends.
 */
export function paginate(strips: readonly Strip[], first: number, further: number): Placed[][] {
  const pages: Placed[][] = [[]];
  let used = 0;
  const room = (): number => (pages.length === 1 ? first : further);
  const place = (strip: Strip, repeated: boolean): void => {
    const page = pages.at(-1)!;
    const top = page.length === 0 ? 0 : used + strip.before;
    page.push({ strip, top, repeated });
    used = top + strip.height;
  };
  const turn = (next: Strip): void => {
    pages.push([]);
    used = 0;
    for (const strip of next.head ?? []) place(strip, true);
  };
  for (let at = 0; at < strips.length; ) {
    let end = at + 1;
    while (end < strips.length && strips[end - 1]!.keep) end += 1;
    const group = strips.slice(at, end);
    const height = group.reduce((sum, strip) => sum + strip.before + strip.height, 0);
    const empty = pages.at(-1)!.length === 0;
    if (!empty && used + height > room() && height <= further - headHeight(group[0]!)) turn(group[0]!);
    for (const strip of group) {
      const onPage = pages.at(-1)!;
      if (onPage.some((placed) => !placed.repeated) && used + strip.before + strip.height > room()) turn(strip);
      place(strip, false);
    }
    at = end;
  }
  return pages;
}

const headHeight = (strip: Strip): number => (strip.head ?? []).reduce((sum, each) => sum + each.before + each.height, 0);
