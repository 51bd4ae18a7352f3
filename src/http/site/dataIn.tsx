/** CSV into the records: read, shown, and written only when the report is sent back. */
import { type Context, Hono } from "hono";
import { carryOut } from "../../acts/carryOut.js";
import { shopRateBook } from "../../acts/checked.js";
import { COLUMNS, IMPORTS, type ImportName } from "../../acts/importRows.js";
import { importTable, isSound, type Report } from "../../acts/importTable.js";
import { columnsTold } from "../../acts/tableRows.js";
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
const nameOf = (c: Context<AppEnv>): ImportName | undefined => IMPORTS.find((name) => name === c.req.param("what"));
const missing = { detail: "There is nothing of that name to import." };

const TOO_LONG = "This is above 5 MiB; give it in parts.";

type Fields = ReadonlyMap<string, string>;

dataIn.get("/data/in/:what", async (c) => {
  const what = nameOf(c);
  if (!what) return refuse(c, "not found", missing);
  const written = c.req.query("written");
  const say = written !== undefined && /^\d+$/.test(written) ? `Written: ${written} records.` : undefined;
  return show(c, what, { fields: new Map(c.req.query("assembly") ? [["assembly", c.req.query("assembly")!]] : []), say });
});

dataIn.post("/data/in/:what", async (c) => {
  const what = nameOf(c);
  if (!what) return refuse(c, "not found", missing);
  const { fields, file } = await sentIn(c);
  if (!file.ok) return show(c, what, { fields, errors: new Map([["file", file.why]]) });
  const { text } = file;
  if (new TextEncoder().encode(text.replaceAll("\r\n", "\n")).length > IMPORT_LIMIT)
    return show(c, what, { fields, text: fields.get("text") ?? "", errors: new Map([["file", TOO_LONG]]) });
  const [model, ...assembly] = (fields.get("assembly") ?? "").split(" ");
  const value = {
    ...{ text, ...chosenIn(fields), addKinds: fields.get("addKinds") === "yes" },
    ...(model && { model }),
    ...(assembly.length > 0 && { assembly: assembly.join(" ") }),
  };
  const on = { what, read: () => ({ ...fileRead({ text }), encoding: file.encoding }) };
  const wanted = fields.get("intent") === "write";
  if (wanted) {
    const done = await carryOut(importTable, deskOf(c), { ...value, carryOut: true }, on);
    if (done.ok && "answer" in done) return c.redirect(`/data/in/${what}?written=${done.answer.written}`, 303);
  }
  const read = await carryOut(importTable, deskOf(c), value, on);
  if (read.ok) {
    const refused = wanted && new Map([["", "Nothing was written: a row is wrong. The report says which."]]);
    return show(c, what, { fields, text, ...("answer" in read && { report: read.answer }), ...(refused && { errors: refused }) });
  }
  const [fault] = read.refusal.errors ?? [];
  const field = fault?.pointer === "/text" ? "text" : "assembly";
  return show(c, what, { fields, text, errors: new Map([[field, fault?.detail ?? ""]]) });
});

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

async function show(c: Context<AppEnv>, what: ImportName, { fields, text = "", errors = new Map(), report, say }: Shown) {
  const { db } = c.var;
  const filled = new Map(fields);
  if (report) {
    for (const { name } of columnsTold(COLUMNS[what])) filled.set(`map.${name}`, report.mapping.fields[name] ?? "");
    for (const { name, type } of report.groups ?? []) filled.set(`type.${name}`, type ?? "");
    filled.set("mark", report.mapping.mark).set("encoding", report.encoding);
  }
  return pageAnswer(
    c,
    <ImportPage
      frame={frameFor(c, (await shopSettings(db)).name)}
      what={what}
      title={TITLES[what]}
      text={text}
      fields={filled}
      errors={errors}
      report={report && reportView(what, report, (await shopRateBook(db)).partTypes)}
      say={say}
      {...(what === "parts-list" && { models: await assembliesToChoose(c) })}
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

function reportView(what: ImportName, report: Report, partTypes: ReportView["partTypes"]): ReportView {
  const { delimiter, groups, changes, ...told } = report;
  return {
    ...{ ...told, partTypes },
    delimiter: { ",": "commas", ";": "semicolons", "\t": "tabs" }[delimiter],
    fields: columnsTold(COLUMNS[what]),
    ...(groups && { groups: groups.map(({ name, pieces }) => ({ name, pieces, field: `type.${name}` })) }),
    ready: isSound(report) && changes > 0,
    doIt: `Write ${counted(changes, "record")}`,
  };
}
