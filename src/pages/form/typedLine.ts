/**
 * A line as one types or pastes it: how many, before or after, the name of work, of a service or of a part, and the minutes or the price
 * that own words end with. A figure that can be read in two ways is told, and nothing is made of it.
 */
import { decimalMark, readFigure } from "../../wording/decimal.js";
import { foundByName, type Named } from "../../wording/named.js";
import { offered } from "../../wording/rateBookParts.js";
import { decimalsIn, type FormContext } from "./context.js";
import type { Fields } from "./fields.js";
import { partsOffered, workNames } from "./names.js";
import { isOpen, openIn } from "./open.js";

interface Typed {
  readonly count: string;
  readonly what: string;
}

interface Unclear {
  readonly wrong: string;
}

/** What stands between thousands; a space does only where nothing else can be meant. */
const GROUP = "[.,'’]";
const WHOLE = `\\d{1,3}(?:${GROUP}\\d{3})+|\\d{1,5}`;
const FIGURE = `\\d{1,3}(?:${GROUP}\\d{2,3})*${GROUP}\\d{3}(?:[.,]\\d{1,2})?|\\d{1,7}(?:[.,]\\d{1,2})?`;
const SPACED = "\\d{1,3}(?: \\d{3})+";

const BEFORE = new RegExp(`^(${WHOLE})\\s*([x×*])?\\s+(.+)$`, "i");
const AFTER = new RegExp(`^(.+?)\\s+[x×*]\\s*(${SPACED}|${WHOLE})$`, "i");
/** A figure before one of these is a value, and no count. */
const UNIT = /^(?:[munpµμ]?[fh]|v|ma|k|m|r|w|ohms?|hz|mm|cm|pins?|%)(?![a-z])/i;

const MINUTES = new RegExp(`^(.*\\S)\\s+(${FIGURE})\\s*min(?:s|utes?)?\\.?$`, "i");
/** Told from a value by its sign, or by two digits after the point. */
const SIGN_BEFORE = new RegExp(`^(.*\\S)\\s+\\p{Sc}\\s?(${SPACED}(?:[.,]\\d{1,2})?|${FIGURE})$`, "u");
const PRICE = new RegExp(`^(.*\\S)\\s+(?:(${FIGURE})\\s?\\p{Sc}|(?=\\S*[.,]\\d{2}$)(${FIGURE}))$`, "u");

interface OwnFigure {
  readonly what: string;
  /** Of the line. */
  readonly field: "likely" | "price";
  readonly figure: string;
}

/** What one's own words end with. */
function ownFigure(text: string, context: FormContext): OwnFigure | Unclear | undefined {
  const [, work, minutes] = MINUTES.exec(text) ?? [];
  const [, signed, after] = SIGN_BEFORE.exec(text) ?? [];
  const [, thing, before, plain] = PRICE.exec(text) ?? [];
  const figure = minutes ?? after ?? before ?? plain;
  const what = minutes === undefined ? (after === undefined ? thing : signed) : work;
  if (figure === undefined || what === undefined) return undefined;
  const thousands = after === undefined && /^\d{3}(?!\d)/.test(figure) && /(?:^|\s)(\d{1,3}(?: \d{3})*)$/.exec(what)?.[1];
  if (thousands) return twoWays(`${thousands} ${figure}`, `put a comma before ${figure}`);
  const field = minutes === undefined ? "price" : "likely";
  const decimals = field === "price" ? decimalsIn(context) : 2;
  const { currency, locale } = context;
  const read = readFigure(figure, { mark: decimalMark(locale), decimals, ...(field === "price" && { currency }) });
  if (read && "wrong" in read) return read;
  return { what: what.replace(/[\s,;:–-]+$/, ""), field, figure: figure.replaceAll(" ", "") };
}

const twoWays = (figure: string, otherwise: string): Unclear => ({
  wrong: `'${figure}' can be read in two ways; write ${figure.replaceAll(" ", "")}, or ${otherwise}.`,
});

/** A space that keeps together is no end of a word. */
const joined = (text: string) => text.trim().replaceAll(/(?<=(?:^|\s|\p{Sc})\d{1,3})[\u00a0\u202f](?=\d{3}(?!\d))/gu, "");

export function typedLine(text: string, context: FormContext): Typed | Unclear {
  const what = joined(text);
  if (named(what, context)) return { count: "1", what };
  const [, after, times] = AFTER.exec(what) ?? [];
  if (after !== undefined) return { count: digits(times!), what: after };
  const [, count, sign, rest] = BEFORE.exec(what) ?? [];
  if (count === undefined) return { count: "1", what };
  if (!sign && !named(rest!, context) && UNIT.test(rest!)) return { count: "1", what };
  const [, more, name] = /^((?:\d{3}\s+)*\d{3})\s+(\D.*)$/.exec(rest!) ?? [];
  if (more !== undefined && !sign && /^\d{1,3}$/.test(count) && !UNIT.test(name!) && !foundOf(rest!, context))
    return twoWays(`${count} ${more}`, `${count} x ${more}`);
  return { count: digits(count), what: rest! };
}

const digits = (count: string): string => count.replaceAll(/\D/g, "");

type Known = Named & { readonly is: "operation" | "part" };

function named(text: string, context: FormContext): Known | undefined {
  const work = foundByName(text, worksOffered(context));
  if (work) return { ...work, is: "operation" };
  const part = foundByName(text, partsOffered(context));
  return part && { ...part, is: "part" };
}

const worksOffered = (context: FormContext): readonly Named[] => workNames(context).filter(({ id }) => isOffered(id, context));

/** By its whole name, or as the only one that has every word. */
function foundOf(text: string, context: FormContext): Known | undefined {
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

const HEAD = /^(?:qty|quantity|count|pieces|refs?|references?|designators?|parts?|values?|descriptions?|items?|names?)$/i;
const PLACE = /^[a-z]{1,3}\d{1,4}$/i;
const CELL_SPACED = new RegExp(`^${SPACED}(?:[.,]\\d{1,2})?$`);

/** `12;Film capacitor`, `Film capacitor<tab>12`, `C1, C2, C7;Film capacitor` or as one types a line. */
export function listedLine(line: string, context: FormContext): Typed | Unclear | undefined {
  const mark = ["\t", ";", ","].find((one) => line.includes(one));
  const cut = mark === "," ? cutAtCommas(line.trim(), context) : (mark ?? "\t");
  if (typeof cut === "object" && "wrong" in cut) return cut;
  const cells = line
    .split(cut)
    .map(joined)
    .map((cell) => (CELL_SPACED.test(cell) ? cell.replaceAll(" ", "") : cell))
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

/** A comma within the figure that the line ends with parts no columns; `470,12` may be both where the comma is no decimal sign. */
function cutAtCommas(line: string, context: FormContext): RegExp | Unclear {
  const own = ownFigure(line, context);
  if (own && "wrong" in own) return own;
  const figure = own?.figure ?? "";
  if (!figure.includes(",")) return /,/;
  const bare = /^\d+,\d{2}$/.test(figure) && line.endsWith(` ${figure}`);
  if (!bare || decimalMark(context.locale) === ",") return /,(?!\d)|(?<!\d),/;
  return {
    wrong: `'${figure}' can be read in two ways; write ${figure.replace(",", ".")} as a price, or columns with semicolons.`,
  };
}

/** 'Replace valve', 'replace 2 valves': the part, which is replaced wherever it is named alone. */
function replacedPart({ count, what }: Typed, context: FormContext): (Typed & { readonly known: Known }) | undefined {
  const verb = offered(context.rateBook.operations).find(
    ({ sort, name }) => sort === "replacement" && what.toLowerCase().startsWith(`${name.toLowerCase()} `),
  );
  if (!verb || foundOf(what, context)) return undefined;
  const rest = typedLine(
    what
      .slice(verb.name.length)
      .trim()
      .replace(/^(?:the|an?) /i, ""),
    context,
  );
  const known = "wrong" in rest ? undefined : foundOf(rest.what, context);
  if ("wrong" in rest || known?.is !== "part") return undefined;
  return { count: count === "1" ? rest.count : count, what: rest.what, known };
}

/** Own words that end with a figure, work or a part of a list, or what is unclear of it. */
function meant(said: Typed | Unclear, context: FormContext) {
  if ("wrong" in said) return said;
  if (/^0+$/.test(said.count)) return { wrong: `0 of '${said.what}' is none; give 1 or more.` };
  const replaced = replacedPart(said, context);
  const known = replaced?.known ?? foundOf(said.what, context);
  const own = known ? undefined : ownFigure(said.what, context);
  const listed = own && "what" in own && own.field === "price" ? foundOf(own.what, context) : undefined;
  if (listed?.is === "part")
    return { wrong: `'${listed.name}' has a price of its own; write it without one, and another price on its line.` };
  return own && "wrong" in own ? own : { ...said, ...replaced, ...(known && { known }), ...(own && { own }) };
}

export type Meant = Exclude<ReturnType<typeof meant>, Unclear>;

export const nextLine = (fields: Fields, context: FormContext): Meant | Unclear | undefined => {
  const text = fields.get("next.what")?.trim();
  return text ? meant(typedLine(text, context), context) : undefined;
};

export const nextList = (fields: Fields, context: FormContext): readonly (readonly [line: string, read: Meant | Unclear])[] =>
  (fields.get("next.list") ?? "").split(/\r\n|\r|\n/).flatMap((line) => {
    const said = listedLine(line, context);
    return said ? [[line, meant(said, context)] as const] : [];
  });

/** Beside the box that it stands in: such a line is not taken. */
export function unclearNext(fields: Fields, context: FormContext): readonly { readonly field: string; readonly why: string }[] {
  const told = (field: string, read: Meant | Unclear | undefined) =>
    read && "wrong" in read ? [{ field, why: read.wrong }] : [];
  return [
    ...told("next.what", nextLine(fields, context)),
    ...(isOpen(openIn(fields), "list") ? nextList(fields, context).flatMap(([, read]) => told("next.list", read)) : []),
  ];
}
