/** Lines as one types or pastes them: how many, before or after, and the name of work, of a service or of a part. */
import { foundByName, type Named, nameFor } from "../../../wording/named.js";
import { offered } from "../../../wording/rateBookParts.js";
import type { FormContext } from "../context.js";
import { draftFrom, WHOLE_UNIT } from "../draft.js";
import { type Fields, key } from "../fields.js";
import { partNames, partsOffered, workNames } from "../names.js";
import { opened } from "../open.js";
import { placeAt, placesIn } from "../places.js";
import { type Acted, freeKey, withFields } from "./rows.js";

interface Typed {
  readonly count: string;
  readonly what: string;
}

const BEFORE = /^(\d{1,5})\s*([x×*])?\s+(.+)$/i;
const AFTER = /^(.+?)\s+[x×*]\s*(\d{1,5})$/i;
/** A figure before one of these is a value, and no count. */
const UNIT = /^(?:[munpµμ]?[fh]|v|ma|k|m|r|w|ohms?|hz|mm|cm|pins?|%)(?![a-z])/i;

const MINUTES = /^(.*\S)\s+(\d{1,4}(?:[.,]\d{1,2})?)\s*min(?:s|utes?)?\.?$/i;
/** Told from a value by its sign, or by two digits after the point. */
const PRICE = /^(.*\S)\s+(?:\p{Sc}\s?(\d{1,7}(?:[.,]\d{1,2})?)|(\d{1,7}(?:[.,]\d{1,2})?)\s?\p{Sc}|(\d{1,7}[.,]\d{2}))$/u;

/** What one's own words end with, as a field of the line. */
function ownFigure(
  text: string,
): { readonly what: string; readonly field: "likely" | "price"; readonly figure: string } | undefined {
  const said = (words = "") => words.replace(/[\s,;:–-]+$/, "");
  const [, work, minutes] = MINUTES.exec(text) ?? [];
  if (minutes !== undefined) return { what: said(work), field: "likely", figure: minutes };
  const [, thing, before, after, plain] = PRICE.exec(text) ?? [];
  const figure = before ?? after ?? plain;
  return figure === undefined ? undefined : { what: said(thing), field: "price", figure };
}

export function typedLine(text: string, context: FormContext): Typed {
  const what = text.trim();
  if (named(what, context)) return { count: "1", what };
  const [, after, times] = AFTER.exec(what) ?? [];
  if (after !== undefined) return { count: times!, what: after };
  const [, count, sign, rest] = BEFORE.exec(what) ?? [];
  if (count === undefined) return { count: "1", what };
  return sign || named(rest!, context) || !UNIT.test(rest!) ? { count, what: rest! } : { count: "1", what };
}

type Known = Named & { readonly is: "operation" | "part" };

function named(text: string, context: FormContext): Known | undefined {
  const work = foundByName(text, worksOffered(context));
  if (work) return { ...work, is: "operation" };
  const part = foundByName(text, partsOffered(context));
  return part && { ...part, is: "part" };
}

const worksOffered = (context: FormContext): readonly Named[] => workNames(context).filter(({ id }) => isOffered(id, context));

/** By its whole name, or as the only one that has every word. */
function found(text: string, context: FormContext): Known | undefined {
  const whole = named(text, context);
  if (whole) return whole;
  const words = text.toLowerCase().split(/\s+/);
  const has = ({ name }: Named) => words.every((word) => name.toLowerCase().includes(word.replace(/(?<=...)s$/, "")));
  const fits: readonly Known[] = [
    ...worksOffered(context).flatMap((one) => (has(one) ? [{ ...one, is: "operation" as const }] : [])),
    ...partsOffered(context).flatMap((one) => (has(one) ? [{ ...one, is: "part" as const }] : [])),
  ];
  return fits.length === 1 ? fits[0] : undefined;
}

const isOffered = (id: string, { rateBook }: FormContext): boolean =>
  [
    ...offered(rateBook.operations).map((one) => one.id),
    ...offered(rateBook.services ?? []).map((one) => `service:${one.id}`),
  ].includes(id);

/** `own`: the line that is in one's own words, which wants to say more. */
type Added = Acted & { readonly own?: string };

/** One line more on the row `at`: a count of the grid where that says it all, else a line. What is on no list is work in one's own words. */
function addTyped(fields: Fields, { count, what }: Typed, at: string, context: FormContext): Added {
  const known = found(what, context);
  const column = known && columnOf(known, context);
  const cell = column && `cells.${at}.${key(column)}`;
  const took = `Added: ${count} ${known?.name ?? what}.`;
  if (cell && !fields.get(cell)?.trim()) return { fields: withFields(fields, [[cell, count]]), focus: "next.what", say: took };
  const row = freeKey(fields, "line", "l");
  const place = at === WHOLE_UNIT ? "" : (fields.get(`assembly.${at}.name`) ?? "").trim();
  const names = known?.is === "part" ? partNames(context) : workNames(context);
  const own = known ? undefined : ownFigure(what);
  const line = withFields(fields, [
    [`line.${row}.${known?.is ?? "operation"}`, known ? nameFor(known.id, names) : (own?.what ?? what)],
    ...(own ? [[`line.${row}.${own.field}`, own.figure] as const] : []),
    [`line.${row}.count`, count],
    [`line.${row}.certainty`, "planned"],
    ...(place === "" ? [] : [[`line.${row}.assembly`, place] as const]),
  ]);
  return { fields: line, focus: "next.what", say: took, ...(!known && !own && { own: row }) };
}

function columnOf({ id, is }: Known, { rateBook }: FormContext): string | undefined {
  if (is === "part") return id.startsWith("type:") ? `p:${id.slice("type:".length)}` : undefined;
  return rateBook.operations.some((one) => one.id === id && one.sort === "cleaning") ? `o:${id}` : undefined;
}

/** What stands in the box for the next line becomes a line. */
export function addNext(fields: Fields, context: FormContext): Acted {
  const { own, ...added } = addTyped(fields, typedLine(fields.get("next.what") ?? "", context), rowAt(fields), context);
  const emptied = added.fields.set("next.what", "");
  if (own === undefined) return { ...added, fields: emptied };
  const say = `${added.say} It is on no list: give its minutes or a price.`;
  return { fields: opened(emptied, `more.${own}`), focus: `line.${own}.likely`, say };
}

export const rowAt = (fields: Fields): string => placeAt(fields, placesIn(draftFrom(fields), fields.get("meta.at"))).row;

const HEAD = /^(?:qty|quantity|count|pieces|refs?|references?|designators?|parts?|values?|descriptions?|items?|names?)$/i;
const PLACE = /^[a-z]{1,3}\d{1,4}$/i;

/** `12;Film capacitor`, `Film capacitor<tab>12`, `C1, C2, C7;Film capacitor` or as one types a line. */
export function listedLine(line: string, context: FormContext): Typed | undefined {
  const mark = ["\t", ";", ","].find((one) => line.includes(one));
  const cells = (mark === undefined ? [line] : line.split(mark === "," ? "," : new RegExp(`[${mark}]`)))
    .map((cell) => cell.trim())
    .filter(Boolean);
  if (cells.length === 0) return undefined;
  if (cells.length === 1 || named(line.trim(), context)) return typedLine(line, context);
  if (cells.every((cell) => HEAD.test(cell))) return undefined;
  const places = (cell: string) => cell.split(/[\s,]+/).filter((one) => PLACE.test(one)).length;
  const isPlaces = (cell: string) => cell.split(/[\s,]+/).every((one) => PLACE.test(one));
  const figure = cells.find((cell) => /^\d{1,5}$/.test(cell));
  const placed = cells.filter(isPlaces).reduce((sum, cell) => sum + places(cell), 0);
  const what = cells.filter((cell) => cell !== figure && !isPlaces(cell)).join(" ");
  if (what === "") return undefined;
  return { count: figure ?? (placed > 0 ? String(placed) : "1"), what };
}

export function addList(fields: Fields, context: FormContext): Acted {
  const typed = (fields.get("next.list") ?? "").split(/\r\n|\r|\n/).flatMap((line) => listedLine(line, context) ?? []);
  if (typed.length === 0) return { fields: new Map(fields), say: "There is no line in the list yet." };
  const at = rowAt(fields);
  let now = new Map(fields);
  const own: string[] = [];
  for (const one of typed) {
    const added = addTyped(now, one, at, context);
    now = added.fields;
    if (added.own !== undefined) own.push(added.own);
  }
  now.set("next.list", "");
  const said = `${typed.length} ${typed.length === 1 ? "line was" : "lines were"} added.`;
  const left = own.length === 0 ? "" : ` ${own.length} ${own.length === 1 ? "is" : "are"} on no list: give minutes or a price.`;
  const [first] = own;
  const unfolded = first === undefined ? now : opened(now, `more.${first}`);
  return {
    fields: opened(unfolded, "list", false),
    focus: first === undefined ? "next.what" : `line.${first}.likely`,
    say: said + left,
  };
}
