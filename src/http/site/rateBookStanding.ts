/** The rate book as it stands, in the version asked for; the page of it that an address means; its form, as it stands and as it was typed. */
import type { Context } from "hono";
import { saysOf } from "../../acts/field.js";
import { changeFields } from "../../acts/rateBookFields.js";
import type { Typed } from "../../acts/readForm.js";
import { today } from "../../acts/today.js";
import { writeForm } from "../../acts/writeForm.js";
import type { RateBook } from "../../estimating/input.js";
import type { AskedForm } from "../../pages/frame/ask.js";
import { rateBooks } from "../../records/rateBooks.js";
import { type Settings, shopSettings } from "../../records/settings.js";
import { BOOK_PAGES, BOOK_PARTS, type PartName, rowId } from "../../wording/rateBookParts.js";
import type { AppEnv } from "../bindings.js";
import { type Again, fieldsOf } from "../doors/page.js";

export const SAYS = saysOf(changeFields);

/** The book as the shop has it, in the version asked for. */
export interface Standing {
  readonly settings: Settings;
  readonly book: RateBook;
  readonly newest: number;
  readonly inForce: number;
  readonly day: string;
}

export async function standing(c: Context<AppEnv>): Promise<Standing | undefined> {
  const { db } = c.var;
  const settings = await shopSettings(db);
  const day = today(c.var.clock(), settings.timeZone);
  const newest = await rateBooks.find(db, settings.rateBookId);
  const wanted = Number(c.req.query("version") ?? newest?.version);
  if (!newest || !Number.isSafeInteger(wanted)) return undefined;
  const found = wanted === newest.version ? newest : await rateBooks.findVersion(db, newest.id, wanted);
  const inForce = newest.book.inForceFrom <= day ? newest : await rateBooks.inForce(db, newest.id, day);
  return found && { settings, book: found.book, newest: newest.version, inForce: inForce?.version ?? newest.version, day };
}

export type Place =
  | { readonly is: "rates" | keyof typeof BOOK_PAGES }
  | { readonly is: "part"; readonly part: PartName }
  | { readonly is: "entry"; readonly part: PartName; readonly at: number };

export function placeOf(c: Context<AppEnv>, book: RateBook): Place | undefined {
  const [part, entry] = [c.req.param("part"), c.req.param("entry")];
  if (part === undefined) return { is: "rates" };
  if (entry === undefined && Object.hasOwn(BOOK_PAGES, part)) return { is: part as keyof typeof BOOK_PAGES };
  if (!Object.hasOwn(BOOK_PARTS, part)) return undefined;
  const name = part as PartName;
  if (entry === undefined) return { is: "part", part: name };
  const rows = rowsIn(book, name);
  const at = entry === "new" ? rows.length : rows.findIndex((row) => rowId(row) === entry);
  return at < 0 ? undefined : { is: "entry", part: name, at };
}

export function blank({ book, settings, day }: Standing): AskedForm {
  const from = book.inForceFrom > day ? book.inForceFrom : day;
  const fields = writeForm(changeFields, { ...book, inForceFrom: from }, { locale: settings.locale, currency: book.currency });
  return { fields: new Map([...fields, ["version", String(book.version)]]), errors: new Map(), says: SAYS };
}

/** What was typed, over the book for all that was not on the page. */
export function typedForm(stands: Standing, sent: Typed, fields: ReadonlyMap<string, string> = fieldsOf(sent)): AskedForm {
  const ticks = sent.names.filter((name) => name.endsWith(".hazards")).map((name) => [name, sent.all(name).join("\n")] as const);
  return { fields: new Map([...blank(stands).fields, ...fields, ...ticks]), errors: new Map(), says: SAYS };
}

export function againForm(stands: Standing, { typed, fields, errors, refusal }: Again): AskedForm {
  const moved = refusal?.is === "version moved" && MOVED;
  const form = typedForm(stands, typed, fields);
  if (moved) return { ...form, errors: new Map([["", moved]]) };
  const boxes = new Set([...typed.names, ...form.fields.keys()]);
  return { ...form, errors: new Map([...errors].map(([field, text]) => [boxOf(field, boxes), text])) };
}

/** What is wrong with several boxes together, such as three times, is said at the first of them; an id has none. */
const boxOf = (field: string, boxes: ReadonlySet<string>): string =>
  field === "" || boxes.has(field)
    ? field
    : ([...boxes].find((box) => box.startsWith(`${field}.`) && !box.endsWith(".id")) ?? field);

export const MOVED =
  "Someone else saved a version meanwhile. What you typed stands here; see what it does on top of theirs, then save.";

export const rowsIn = (book: RateBook, part: PartName) =>
  (book[BOOK_PARTS[part].list] ?? []) as readonly Parameters<typeof rowId>[0][];
