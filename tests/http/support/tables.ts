/** The tables of a page as they are read: cells in words. */
import { words } from "./noScript.js";

export interface ReadTable {
  readonly caption: string;
  readonly rows: readonly (readonly string[])[];
  readonly foot: readonly (readonly string[])[];
}

export function tablesOn(html: string): readonly ReadTable[] {
  return [...html.matchAll(/<table[ >].*?<\/table>/gs)].map(([table]) => ({
    caption: said(/<caption[^>]*>(.*?)<\/caption>/s.exec(table)?.[1] ?? ""),
    rows: rowsIn(/<tbody>(.*?)<\/tbody>/s.exec(table)?.[1] ?? ""),
    foot: rowsIn(/<tfoot>(.*?)<\/tfoot>/s.exec(table)?.[1] ?? ""),
  }));
}

const rowsIn = (html: string): string[][] =>
  [...html.matchAll(/<tr[ >].*?<\/tr>/gs)].map(([row]) =>
    [...row.matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/gs)].map(([, cell = ""]) => said(cell)),
  );

const said = (html: string): string => words(html).replaceAll(/\s+/g, " ").trim();

/** Minor units of an amount in pounds, with its sign; undefined where the text is no amount. */
export function pence(text: string): number | undefined {
  const [, sign, whole, rest] = /^([-−+]?)£([\d,]+)\.(\d\d)$/.exec(text) ?? [];
  if (whole === undefined) return undefined;
  const amount = Number(whole.replaceAll(",", "")) * 100 + Number(rest);
  return sign === "-" || sign === "−" ? -amount : amount;
}
