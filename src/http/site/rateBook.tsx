/** The rate book's pages. Each sends its part of the book to one act: first to see what that does, then to save it. */
import { type Context, Hono } from "hono";
import { carryOut } from "../../acts/carryOut.js";
import { changeRateBook, type RateBookChanged } from "../../acts/changeRateBook.js";
import { learnt } from "../../acts/learnt.js";
import { changeFields } from "../../acts/rateBookFields.js";
import { type BookRead, bookColumns, readBookJson, readBookTable } from "../../acts/readBook.js";
import { type Typed, typedFrom, typedWith } from "../../acts/readForm.js";
import { writeForm } from "../../acts/writeForm.js";
import { csvText } from "../../documents/csvText.js";
import { USUAL_STRENGTH } from "../../estimating/closeout/learning/belief.js";
import { learn } from "../../estimating/closeout/learning/learn.js";
import { taken } from "../../estimating/closeout/learning/propose.js";
import { standardId } from "../../estimating/closeout/learning/standard.js";
import { isDay } from "../../estimating/day.js";
import type { RateBook } from "../../estimating/input.js";
import type { AskedForm } from "../../pages/frame/ask.js";
import { type BookView, entryAddress, RatesPage } from "../../pages/shop/rateBook.js";
import { FilesPage } from "../../pages/shop/rateBookFiles.js";
import { EntryPage, FamilyPage, LeadsPage, ScarcityPage } from "../../pages/shop/rateBookRows.js";
import type { Figures } from "../../wording/figures.js";
import { takenText } from "../../wording/learning.js";
import { counted } from "../../wording/list.js";
import { BOOK_PARTS, type BookPart, type PartName, rowId, rowsOf } from "../../wording/rateBookParts.js";
import type { AppEnv } from "../bindings.js";
import { decode } from "../dataIn/decode.js";
import { readTable } from "../dataIn/table.js";
import { deskOf } from "../doors/desk.js";
import { type Again, pageDoor, seenIn, sentForm } from "../doors/page.js";
import { frameFor, pageAnswer, rowsScriptFor } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { mayUse } from "../who.js";
import { formWithFiles } from "./form.js";
import { preview } from "./rateBookEffect.js";
import { againForm, blank, MOVED, type Place, placeOf, rowsIn, type Standing, standing, typedForm } from "./rateBookStanding.js";

export const rateBook = new Hono<AppEnv>();

const NONE = { detail: "The rate book has no such page or version." };

for (const path of ["/rate-book", "/rate-book/:part", "/rate-book/:part/:entry"]) {
  rateBook.get(path, async (c) => {
    const stands = await standing(c);
    const file = stands && fileOf(c, stands.book);
    if (file) return file;
    const place = stands && placeOf(c, stands.book);
    if (!stands || !place) return refuse(c, "not found", NONE);
    const saved = c.req.query("saved") !== undefined && `Saved: version ${stands.newest}.`;
    return show(c, stands, place, blank(stands), { find: c.req.query("find") ?? "", ...(saved && { say: saved }) });
  });
  rateBook.post(path, change);
}

/** An act's own form: `see` shows what it would do, `save` does it, `find` and `back` show the form again. */
async function change(c: Context<AppEnv>): Promise<Response> {
  const stands = await standing(c);
  const place = stands && placeOf(c, stands.book);
  if (!stands || !place) return refuse(c, "not found", NONE);
  const { settings, book } = stands;
  const tongue = { locale: settings.locale, currency: book.currency };
  if (place.is === "files") return fromFile(c, stands);
  const sent = await sentForm(c);
  const intent = sent?.get("intent");
  const find = sent?.get("find") ?? "";
  if (sent && (intent === "back" || intent === "find")) return show(c, stands, place, typedForm(stands, sent), { find });
  const saves = intent === "save";
  return pageDoor(c, changeRateBook, {
    on: (typed) => ({ id: book.id, seen: seenIn(typed) }),
    tongue,
    ...(sent && saves && { said: { typed: typedWith(sent, { carryOut: "yes" }) } }),
    // What was new has an address of its own by now.
    done: ({ record }) => {
      const row = place.is === "entry" ? rowsIn(record.book, place.part)[place.at] : undefined;
      return `${row && place.is === "entry" ? entryAddress(place.part, rowId(row)) : c.req.path}?saved`;
    },
    ...(!saves && { once: (answer: RateBookChanged, typed: Typed) => preview(c, stands, answer, typed) }),
    show: (again) => show(c, stands, place, againForm(stands, again), { find, status: again.status }),
  });
}

interface Shown {
  readonly find: string;
  readonly say?: string;
  readonly status?: Again["status"];
}

async function show(c: Context<AppEnv>, stands: Standing, place: Place, form: AskedForm, { find, say, status }: Shown) {
  const { settings, book, newest, inForce, day } = stands;
  const view: BookView = {
    ...{ frame: frameFor(c, settings.name), form, book, locale: settings.locale, newest, inForce, say, to: c.req.path },
    may: book.version === newest && mayUse(c.var, "POST", "/rate-book"),
  };
  const page = async () => {
    switch (place.is) {
      case "rates":
        return <RatesPage {...view} />;
      case "leads":
        return <LeadsPage {...view} />;
      case "scarcity":
        return <ScarcityPage {...view} />;
      case "files":
        return <FilesPage {...view} />;
      case "part":
        return (
          <FamilyPage
            {...view}
            part={place.part}
            find={find}
            learned={await learned(c, book, place.part)}
            script={rowsScriptFor(c)}
          />
        );
      case "entry": {
        const row = rowsIn(book, place.part)[place.at];
        const said = row && (await learned(c, book, place.part)).get(rowId(row));
        return <EntryPage {...view} part={place.part} at={place.at} today={day} learned={said} />;
      }
    }
  };
  return pageAnswer(c, await page(), status);
}

/** What closed jobs say of the rows, by id, as far as they were read for this version. */
async function learned(c: Context<AppEnv>, book: RateBook, part: PartName): Promise<ReadonlyMap<string, string>> {
  const of = { operations: "operation", partTypes: "part type", fasteners: "fastener", accessStandards: "access" } as const;
  const { list }: BookPart = BOOK_PARTS[part];
  if (!Object.hasOwn(of, list)) return new Map();
  const { observations } = await learnt(c.var.db, book);
  if (observations.length === 0) return new Map();
  const start = `${of[list as keyof typeof of]}:`;
  return new Map(
    [...learn(observations, book, USUAL_STRENGTH).standards.values()].flatMap((belief) => {
      const id = standardId(belief.standard);
      return id.startsWith(start)
        ? [[id.slice(start.length), `${counted(belief.jobs, "job")}. ${takenText(taken(belief))}`] as const]
        : [];
    }),
  );
}

/** The book, or a table of it, to take away. */
function fileOf(c: Context<AppEnv>, book: RateBook): Response | undefined {
  const name = c.req.param("entry") === undefined ? (c.req.param("part") ?? "") : "";
  const named = { "content-disposition": `attachment; filename="${book.id.replaceAll(/[^\w-]/g, "-")}-${book.version}-${name}"` };
  if (name === "rate-book.json")
    return c.body(`${JSON.stringify(book, null, 2)}\n`, 200, { ...named, "content-type": "application/json" });
  const part = name.replace(/\.csv$/, "") as PartName;
  if (!name.endsWith(".csv") || !Object.hasOwn(BOOK_PARTS, part)) return undefined;
  const columns = bookColumns(part);
  const rows = rowsOf(book, BOOK_PARTS[part]).map(({ row }) => {
    const cells = writeForm(changeFields, { [BOOK_PARTS[part].list]: [row] }, { locale: "en-GB", currency: book.currency });
    const texts = columns.map((column) => cells.get(`${BOOK_PARTS[part].list}.0.${column}`)?.replaceAll("\n", "; ") ?? "");
    return texts.map((text) => (/^-?\d+(\.\d+)?$/.test(text) ? { digits: text } : text));
  });
  return c.body(csvText([columns, ...rows]), 200, { ...named, "content-type": "text/csv; charset=utf-8" });
}

/** A file is read as what it changes, shown, and sent again as its text to be saved. */
async function fromFile(c: Context<AppEnv>, stands: Standing): Promise<Response> {
  const { book } = stands;
  const sent = await formWithFiles(c);
  const pairs = new URLSearchParams([...sent].flatMap(([name, value]) => (typeof value === "string" ? [[name, value]] : [])));
  const file = sent.get("file");
  const decoded = file instanceof File && file.size > 0 ? decode(new Uint8Array(await file.arrayBuffer())) : undefined;
  if (decoded?.ok) pairs.set("text", decoded.text);
  const typed = typedFrom(pairs);
  const again = (whys: readonly string[]) =>
    show(
      c,
      stands,
      { is: "files" },
      { ...typedForm(stands, typed), errors: new Map([["file", whys.slice(0, MOST_WHYS).join(" ")]]) },
      { find: "", status: 422 },
    );
  if (decoded && !decoded.ok) return again([decoded.why]);
  if (typed.get("intent") === "back") return show(c, stands, { is: "files" }, typedForm(stands, typed), { find: "" });
  const read = bookIn(typed, { locale: stands.settings.locale, currency: book.currency });
  if (!read.ok) return again(read.whys);
  const saves = typed.get("intent") === "save";
  const change = { ...read.change, ...(saves && { carryOut: true, drafts: [...typed.all("drafts")] }) };
  const outcome = await carryOut(changeRateBook, deskOf(c), change, { id: book.id, seen: seenIn(typed) });
  if (!outcome.ok)
    return again(
      outcome.refusal.errors?.map(({ detail }) => detail) ?? [
        outcome.refusal.is === "version moved" ? MOVED : (outcome.refusal.detail ?? ""),
      ],
    );
  if (!("answer" in outcome)) return again([]);
  return saves ? c.redirect("/rate-book/files?saved", 303) : preview(c, stands, outcome.answer, typed);
}

const MOST_WHYS = 20;

function bookIn(typed: Typed, figures: Figures): BookRead {
  const [what = "", text = "", from = ""] = [typed.get("what"), typed.get("text"), typed.get("inForceFrom")];
  if (!isDay(from)) return { ok: false, whys: ["In force from: give a day, such as 2026-12-01."] };
  if (text.trim() === "") return { ok: false, whys: ["Choose a file, or paste its text."] };
  if (what === "json" || !Object.hasOwn(BOOK_PARTS, what)) return readBookJson(text, from, figures);
  const table = readTable(text);
  if (!table.ok) return { ok: false, whys: table.faults.map(({ row, why }) => `Row ${row}: ${why}`) };
  return readBookTable(what as PartName, table, from, figures.currency);
}
