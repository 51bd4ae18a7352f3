/** CSV into the records: read, shown, and written only when the report is sent back. */
import { type Context, Hono } from "hono";
import { shopRateBook } from "../../acts/checked.js";
import { ImportPage } from "../../pages/inOut/importPage.js";
import type { ReportView } from "../../pages/inOut/importReport.js";
import type { Mapping } from "../../records/mappings.js";
import { models } from "../../records/models.js";
import { shopSettings } from "../../records/settings.js";
import type { AppEnv } from "../bindings.js";
import { type Decoded, decode } from "../dataIn/decode.js";
import { carryOut, FIELDS, IMPORTS, type ImportName, type ImportRead, readImport } from "../dataIn/importFile.js";
import { isSound } from "../dataIn/report.js";
import { IMPORT_LIMIT } from "../guard/bodyLimits.js";
import { refuse } from "../problems/refuse.js";
import { formWithFiles } from "./form.js";
import { frameFor, pageAnswer } from "./frame.js";
import { every } from "./shop.js";

export const dataIn = new Hono<AppEnv>();

const TITLES: Readonly<Record<ImportName, string>> = {
  "part-kinds": "Part kinds from CSV",
  offers: "Offers from CSV",
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
  if (new TextEncoder().encode(file.text.replaceAll("\r\n", "\n")).length > IMPORT_LIMIT)
    return show(c, what, { fields, text: fields.get("text") ?? "", errors: new Map([["file", TOO_LONG]]) });
  const [model, ...assembly] = (fields.get("assembly") ?? "").split(" ");
  const wanted = {
    ...{ what, file, chosen: chosenIn(fields), addKinds: fields.get("addKinds") === "yes" },
    ...{ model: model || undefined, assembly: assembly.join(" ") || undefined },
  };
  const now = c.var.clock();
  const read = await readImport(c.var.db, wanted, now);
  if (read.is === "nowhere") return show(c, what, { fields, text: file.text, errors: new Map([["assembly", read.why]]) });
  if (read.is === "unreadable") {
    const [first] = read.faults;
    return show(c, what, { fields, text: file.text, errors: new Map([["text", `Row ${first!.row}: ${first!.why}`]]) });
  }
  if (fields.get("intent") === "write" && isSound(read.report)) {
    if ((await carryOut(c.var.db, what, read, now)) === "written")
      return c.redirect(`/data/in/${what}?written=${read.report.changes.length}`, 303);
    return show(c, what, {
      fields,
      text: file.text,
      read,
      errors: new Map([["", "Someone changed one of these records meanwhile; nothing was written. Look at it again."]]),
    });
  }
  const refused =
    fields.get("intent") === "write" && new Map([["", "Nothing was written: a row is wrong. The report says which."]]);
  return show(c, what, { fields, text: file.text, read, ...(refused && { errors: refused }) });
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
  const under = (prefix: string) =>
    Object.fromEntries(
      [...fields].flatMap(([name, value]) => (name.startsWith(prefix) && value ? [[name.slice(prefix.length), value]] : [])),
    );
  const mark = fields.get("mark");
  const mapped = [...fields.keys()].some((name) => name.startsWith("map."));
  return {
    ...(mapped && { fields: under("map.") }),
    types: under("type."),
    ...((mark === "." || mark === ",") && { mark }),
  };
}

interface Shown {
  readonly fields: Fields;
  readonly text?: string;
  readonly errors?: ReadonlyMap<string, string>;
  readonly read?: Extract<ImportRead, { readonly is: "read" }>;
  readonly say?: string | undefined;
}

async function show(c: Context<AppEnv>, what: ImportName, { fields, text = "", errors = new Map(), read, say }: Shown) {
  const { db } = c.var;
  const shop = await shopSettings(db);
  const filled = new Map(fields);
  let report: ReportView | undefined;
  if (read) {
    for (const { name } of FIELDS[what]) filled.set(`map.${name}`, read.mapping.fields[name] ?? "");
    for (const { name, type } of read.report.groups ?? []) filled.set(`type.${name}`, type ?? "");
    filled.set("mark", read.mapping.mark).set("encoding", read.encoding);
    report = reportView(what, read, (await shopRateBook(db)).partTypes);
  }
  const wrong = errors.size > 0 || (read !== undefined && !isSound(read.report));
  return pageAnswer(
    c,
    <ImportPage
      frame={frameFor(c, shop.name)}
      what={what}
      title={TITLES[what]}
      text={text}
      fields={filled}
      errors={errors}
      report={report}
      say={say}
      {...(what === "parts-list" && { models: await assembliesToChoose(c) })}
    />,
    wrong ? 422 : 200,
  );
}

async function assembliesToChoose(c: Context<AppEnv>) {
  const all = await every((page) => models.list(c.var.db, page));
  return all.map(({ id, maker, model, map }) => ({
    ...{ id, name: `${maker} ${model}` },
    assemblies: map.assemblies.map((each) => [each.id, each.name] as const),
  }));
}

function reportView(
  what: ImportName,
  { encoding, table, remembered, report }: Extract<ImportRead, { readonly is: "read" }>,
  partTypes: ReportView["partTypes"],
): ReportView {
  const { rows, changes, groups, counts } = report;
  return {
    ...{ encoding, headings: table.headings, remembered, rows, partTypes },
    delimiter: { ",": "commas", ";": "semicolons", "\t": "tabs" }[table.delimiter],
    fields: FIELDS[what].map(({ name, label, needed = false }) => ({ name, label, needed })),
    ...(groups && { groups: groups.map(({ name, pieces }) => ({ name, pieces, field: `type.${name}` })) }),
    ...(counts && { counts }),
    ready: isSound(report) && changes.length > 0,
    doIt: `Write ${changes.length} ${changes.length === 1 ? "record" : "records"}`,
  };
}
