/** A teardown map out of the shop and into it, as JSON. */
import { type Context, Hono } from "hono";
import { carryOut } from "../../acts/carryOut.js";
import { shopRateBook } from "../../acts/checked.js";
import { addModel, MAP_FORMAT, MAP_VERSION, replaceModel } from "../../acts/model.js";
import { ImportPage, type ImportView } from "../../pages/models/importPage.js";
import { type Model, modelNamed, models } from "../../records/models.js";
import { shopSettings } from "../../records/settings.js";
import type { AppEnv } from "../bindings.js";
import { readModelFile } from "../dataIn/readModelFile.js";
import { deskOf } from "../doors/desk.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { formWithFiles } from "./form.js";

export const modelFile = new Hono<AppEnv>();

modelFile.get("/models/:file{[^/]+\\.json}", async (c) => {
  const found = await models.find(c.var.db, c.req.param("file").slice(0, -".json".length));
  if (!found) return refuse(c, "not found", { detail: "There is no such model." });
  const { maker, model, map, hazards, notes } = found;
  const value = {
    format: MAP_FORMAT,
    version: MAP_VERSION,
    maker,
    model,
    map,
    ...(hazards && { hazards }),
    ...(notes && { notes }),
  };
  const name = `${maker} ${model}`.replaceAll(/[^\w.-]+/g, "-");
  return c.body(`${JSON.stringify(value, null, 2)}\n`, 200, {
    "content-type": "application/json",
    "content-disposition": `attachment; filename="map-${name}.json"`,
  });
});

modelFile.get("/models/import", (c) => show(c, { text: "", leaveOut: false, problems: [] }));

modelFile.post("/models/import", async (c) => {
  const sent = Object.fromEntries(await formWithFiles(c));
  const text = await textOf(sent.file, String(sent.text ?? ""));
  const leaveOut = sent.leaveOut !== undefined;
  if (text === undefined) return show(c, { text: "", leaveOut, problems: [NOT_UTF8] }, 422);
  const read = readModelFile(text, await shopRateBook(c.var.db), leaveOut);
  if (!read.ok) return show(c, { text, leaveOut, problems: read.faults.map(({ detail }) => detail) }, 422);

  const { maker, model, map } = read.model;
  const old = await modelNamed(c.var.db, maker, model);
  const replaces = old && { id: old.id, version: old.version, assemblies: old.map.assemblies.length };
  const seen: ImportView = {
    ...{ text, leaveOut, problems: [] },
    read: { maker, model, map, leftOut: read.leftOut, ...(replaces && { replaces }) },
  };
  if (sent.intent !== "keep") return show(c, seen);
  if (String(sent.replaces ?? "") !== (replaces ? `${replaces.id} ${replaces.version}` : ""))
    return show(c, { ...seen, problems: [CHANGED] }, 409);
  const id = await keep(c, read.model, replaces);
  return id === undefined ? show(c, { ...seen, problems: [CHANGED] }, 409) : c.redirect(`/models/${id}?saved`, 303);
});

const NOT_UTF8 = "The file is not text in UTF-8, or not text at all; save it as UTF-8, or paste its text.";
const CHANGED = "The map kept here changed since it was checked; look again at what this would do.";

/** What was chosen as a file comes before what was pasted. */
async function textOf(file: unknown, pasted: string): Promise<string | undefined> {
  if (!(file instanceof File) || file.size === 0) return pasted;
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(await file.arrayBuffer());
  } catch {
    return undefined;
  }
}

/** Its id; undefined where the map kept here changed meanwhile. */
async function keep(c: Context<AppEnv>, value: Model, old: { id: string; version: number } | undefined) {
  const outcome = old
    ? await carryOut(replaceModel, deskOf(c), { ...value }, { id: old.id, seen: [old.version] })
    : await carryOut(addModel, deskOf(c), { ...value }, {});
  return outcome.ok && "answer" in outcome ? outcome.answer.id : undefined;
}

async function show(c: Context<AppEnv>, view: ImportView, status?: 409 | 422) {
  const { name } = await shopSettings(c.var.db);
  return pageAnswer(c, <ImportPage frame={frameFor(c, name)} view={view} />, status);
}
