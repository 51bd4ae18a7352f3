/** CSV into the records: read, shown, and written only when the report is sent back. */
import { type Context, Hono } from "hono";
import type { Refusal } from "../../acts/act.js";
import { carryOut } from "../../acts/carryOut.js";
import { shopRateBook } from "../../acts/checked.js";
import { COLUMNS, IMPORTS, type ImportName } from "../../acts/importRows.js";
import { importTable, isSound, type ReadFile, type Report } from "../../acts/importTable.js";
import { type Columns, columnsTold } from "../../acts/tableRows.js";
import { ImportPage } from "../../pages/inOut/importPage.js";
import type { ReportView } from "../../pages/inOut/importReport.js";
import type { Mapping } from "../../records/mappings.js";
import { models } from "../../records/models.js";
import { every } from "../../records/noun.js";
import { shopSettings } from "../../records/settings.js";
import { counted } from "../../wording/list.js";
import type { AppEnv } from "../bindings.js";
import { type Decoded, decode } from "../dataIn/decode.js";
import { fileRead } from "../dataIn/table.js";
import { deskOf } from "../doors/desk.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { IMPORT_LIMIT } from "../guard/bodyLimits.js";
import { refuse } from "../problems/refuse.js";
import { formWithFiles } from "./form.js";

export const dataIn = new Hono<AppEnv>();

const TITLES: Readonly<Record<ImportName, string>> = {
  "part-kinds": "Part kinds from CSV",
  offers: "Offers from CSV",
  "exchange-rates": "Exchange rates from CSV",
  "parts-list": "A parts list from CSV",
};
const missing = { detail: "There is nothing of that name to import." };

/** A table that a page takes in: what the page says, and the act behind it. */
export interface TakenIn {
  readonly page: Omit<Parameters<typeof ImportPage>[0], "frame" | "text" | "fields" | "errors" | "say" | "report">;
  readonly columns: Columns;
  /** What is written. */
  readonly thing: "record" | "line";
  readonly run: (value: FileSent, fields: Fields, read: ReadFile) => Promise<Outcome<Report>>;
}
type FileSent = { readonly text: string; readonly carryOut: boolean } & Partial<Mapping>;
type Outcome<A> = { readonly ok: true; readonly answer?: A } | { readonly ok: false; readonly refusal: Refusal };

async function placeOf(c: Context<AppEnv>): Promise<TakenIn | undefined> {
  const what = IMPORTS.find((name) => name === c.req.param("what"));
  if (!what) return undefined;
  return {
    page: {
      ...{ action: `/data/in/${what}`, back: { href: "/data", name: "Data in and out" }, title: TITLES[what] },
      ...(what === "parts-list" && { models: await assembliesToChoose(c) }),
    },
    ...{ columns: COLUMNS[what], thing: "record" },
    run: (value, fields, read) => {
      const [model, ...assembly] = (fields.get("assembly") ?? "").split(" ");
      const whole = {
        ...{ ...value, addKinds: fields.get("addKinds") === "yes" },
        ...(model && { model }),
        ...(assembly.length > 0 && { assembly: assembly.join(" ") }),
      };
      return carryOut(importTable, deskOf(c), whole, { what, read });
    },
  };
}

const TOO_LONG = "This is above 5 MiB; give it in parts.";

type Fields = ReadonlyMap<string, string>;

dataIn.get("/data/in/:what", async (c) => {
  const place = await placeOf(c);
  return place ? askTable(c, place) : refuse(c, "not found", missing);
});

dataIn.post("/data/in/:what", async (c) => {
  const place = await placeOf(c);
  return place ? sentTable(c, place) : refuse(c, "not found", missing);
});

/** The page as it is come to. */
export function askTable(c: Context<AppEnv>, place: TakenIn) {
  const { written, assembly } = c.req.query();
  const say = written !== undefined && /^\d+$/.test(written) ? `Written: ${counted(Number(written), place.thing)}.` : undefined;
  return show(c, place, { fields: new Map(assembly ? [["assembly", assembly]] : []), say });
}

/** Its form as it was sent. */
export async function sentTable(c: Context<AppEnv>, place: TakenIn) {
  const { fields, file } = await sentIn(c);
  if (!file.ok) return show(c, place, { fields, errors: new Map([["file", file.why]]) });
  const { text } = file;
  if (new TextEncoder().encode(text.replaceAll("\r\n", "\n")).length > IMPORT_LIMIT)
    return show(c, place, { fields, text: fields.get("text") ?? "", errors: new Map([["file", TOO_LONG]]) });
  const run = (carryOut: boolean) =>
    place.run({ text, ...chosenIn(fields), carryOut }, fields, () => ({ ...fileRead({ text }), encoding: file.encoding }));
  const wanted = fields.get("intent") === "write";
  if (wanted) {
    const done = await run(true);
    if (done.ok && done.answer) return c.redirect(`${place.page.action}?written=${done.answer.written}`, 303);
  }
  const read = await run(false);
  if (read.ok) {
    const refused = wanted && new Map([["", "Nothing was written: a row is wrong. The report says which."]]);
    return show(c, place, { fields, text, ...(read.answer && { report: read.answer }), ...(refused && { errors: refused }) });
  }
  const [fault] = read.refusal.errors ?? [];
  if (!fault) return refuse(c, read.refusal.is, read.refusal);
  return show(c, place, { fields, text, errors: new Map([[fault.pointer === "/text" ? "text" : "assembly", fault.detail]]) });
}

/** A file that was chosen comes before the text; what stands in the text was decoded before. */
async function sentIn(c: Context<AppEnv>): Promise<{ readonly fields: Fields; readonly file: Decoded }> {
  const sent = Object.fromEntries(await formWithFiles(c));
  const fields = new Map(
    Object.entries(sent).flatMap(([name, value]) => (typeof value === "string" ? [[name, value] as const] : [])),
  );
  const { file } = sent;
  if (file instanceof File && file.size > 0)
    return { fields: withoutChoices(fields), file: decode(new Uint8Array(await file.arrayBuffer())) };
  return { fields, file: { ok: true, text: fields.get("text") ?? "", encoding: fields.get("encoding") || "pasted text" } };
}

/** Another file has other columns. */
const withoutChoices = (fields: Fields): Fields =>
  new Map([...fields].filter(([name]) => !/^(map\.|type\.|mark$|encoding$|intent$)/.test(name)));

function chosenIn(fields: Fields): Partial<Mapping> {
  const below = (prefix: string) =>
    Object.fromEntries(
      [...fields].flatMap(([name, value]) => (name.startsWith(prefix) && value ? [[name.slice(prefix.length), value]] : [])),
    );
  const mark = fields.get("mark");
  const mapped = [...fields.keys()].some((name) => name.startsWith("map."));
  return {
    ...(mapped && { fields: below("map.") }),
    types: below("type."),
    ...((mark === "." || mark === ",") && { mark }),
  };
}

interface Shown {
  readonly fields: Fields;
  readonly text?: string;
  readonly errors?: ReadonlyMap<string, string>;
  readonly report?: Report;
  readonly say?: string | undefined;
}

async function show(c: Context<AppEnv>, place: TakenIn, { fields, text = "", errors = new Map(), report, say }: Shown) {
  const { db } = c.var;
  const filled = new Map(fields);
  if (report) {
    for (const { name } of columnsTold(place.columns)) filled.set(`map.${name}`, report.mapping.fields[name] ?? "");
    for (const { name, type } of report.groups ?? []) filled.set(`type.${name}`, type ?? "");
    filled.set("mark", report.mapping.mark).set("encoding", report.encoding);
  }
  return pageAnswer(
    c,
    <ImportPage
      frame={frameFor(c, (await shopSettings(db)).name)}
      {...place.page}
      text={text}
      fields={filled}
      errors={errors}
      report={report && reportView(place, report, (await shopRateBook(db)).partTypes)}
      say={say}
    />,
    errors.size > 0 || (report && !isSound(report)) ? 422 : 200,
  );
}

async function assembliesToChoose(c: Context<AppEnv>) {
  const all = await every((page) => models.list(c.var.db, page));
  return all.map(({ id, maker, model, map }) => ({
    ...{ id, name: `${maker} ${model}` },
    assemblies: map.assemblies.map((each) => [each.id, each.name] as const),
  }));
}

function reportView({ columns, thing }: TakenIn, report: Report, partTypes: ReportView["partTypes"]): ReportView {
  const { delimiter, groups, changes, ...told } = report;
  return {
    ...{ ...told, partTypes },
    delimiter: { ",": "commas", ";": "semicolons", "\t": "tabs" }[delimiter],
    fields: columnsTold(columns),
    ...(groups && { groups: groups.map(({ name, pieces }) => ({ name, pieces, field: `type.${name}` })) }),
    ready: isSound(report) && changes > 0,
    doIt: `Write ${counted(changes, thing)}`,
  };
}
