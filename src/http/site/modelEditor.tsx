/** A teardown map by itself: a new one, a copy of another, and changes to one on record. */
import { type Context, Hono } from "hono";
import { uuidv7 } from "uuidv7";
import { carryOut } from "../../acts/carryOut.js";
import { addModel, replaceModel } from "../../acts/model.js";
import { act } from "../../pages/form/act/act.js";
import { fieldsFrom, given } from "../../pages/form/fields.js";
import { startFrom } from "../../pages/form/model.js";
import type { ConflictView } from "../../pages/intake/conflict.js";
import { EditorPage } from "../../pages/models/editorPage.js";
import { type ModelView, modelViewOf } from "../../pages/models/view.js";
import type { Kept } from "../../records/columns.js";
import { type Model, modelNamed, models } from "../../records/models.js";
import { moment } from "../../wording/time.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { frameFor, mapScriptFor, pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { formOf, isForm, tokenIn } from "./form.js";
import { NOT_A_FORM } from "./sentForm.js";
import { openShop, type Shop } from "./shop.js";

export const modelEditor = new Hono<AppEnv>();

type Found = Model & Kept;
const NO_MODEL = { detail: "There is no such model." };

modelEditor.get("/models/new", async (c) => {
  const shop = await openShop(c.var.db, c.var.clock());
  const from = c.req.query("from");
  const source = from === undefined ? undefined : await models.find(c.var.db, from);
  if (from !== undefined && !source) return refuse(c, "not found", NO_MODEL);
  const fields = source ? copyOf(source, shop) : blank();
  return show(c, shop, modelViewOf(fields.set("meta.token", uuidv7()), shop.context, "/models/new"), undefined, {
    ...(source && { say: `A copy of the map of ${source.maker} ${source.model}. Give it a name of its own, then save it.` }),
  });
});

modelEditor.get("/models/:id/edit", async (c) => {
  const found = await models.find(c.var.db, c.req.param("id"));
  if (!found) return refuse(c, "not found", NO_MODEL);
  const shop = await openShop(c.var.db, c.var.clock());
  return show(c, shop, modelViewOf(fieldsOfModel(found, shop), shop.context, `/models/${found.id}/edit`, true), found);
});

modelEditor.post("/models/new", (c) => answer(c, undefined));
modelEditor.post("/models/:id/edit", async (c) => {
  const found = await models.find(c.var.db, c.req.param("id"));
  return found ? answer(c, found) : refuse(c, "not found", NO_MODEL);
});

async function answer(c: Context<AppEnv>, found: Found | undefined) {
  if (!isForm(c)) return refuse(c, "media type unsupported", NOT_A_FORM);
  const { fields, intent } = await formOf(c);
  const shop = await openShop(c.var.db, c.var.clock());
  const action = found ? `/models/${found.id}/edit` : "/models/new";
  if (intent !== "save") {
    const { fields: acted, say } = act(intent, fields, shop.context);
    const drawn = intent === "redraw" || intent === "recalculate";
    return show(c, shop, modelViewOf(acted, shop.context, action, drawn), found, given({ say }));
  }
  const view = modelViewOf(fields, shop.context, action, true);
  if (view.complaints.length > 0) return show(c, shop, view, found, { say: NOT_SAVED, status: 422 });
  const id = found?.id ?? tokenIn(fields);
  const kept = await keep(c, id, found, modelOf(view), Number(fields.get("meta.version")) || 0);
  if (kept === "kept") return c.redirect(`/models/${id}?saved`, 303);
  if ("taken" in kept) {
    const standing = { name: `${kept.taken.maker} ${kept.taken.model}`, href: `/models/${kept.taken.id}/edit` };
    return show(c, shop, withNameTaken(view, standing.name), found, { say: NOT_SAVED, standing, status: 409 });
  }
  const ours = new Map(fields).set("meta.version", String(kept.version));
  const { locale, timeZone } = shop.settings;
  const conflict: ConflictView = {
    theirs: fieldsOfModel(kept, shop),
    savedAt: moment(kept.updatedAt, locale, timeZone),
    version: kept.version,
    href: `/models/${kept.id}/edit`,
  };
  return show(c, shop, modelViewOf(ours, shop.context, action), kept, { conflict, status: 409 });
}

const NOT_SAVED = "Not saved yet: something has to be put right first.";

/** The record as it stands by now, where someone else saved first. */
async function keep(c: Context<AppEnv>, id: string, found: Found | undefined, value: Model, version: number) {
  const outcome = found
    ? await carryOut(replaceModel, deskOf(c), { ...value }, { id, seen: [version] })
    : await carryOut(addModel, deskOf(c), { ...value, id }, {});
  if (outcome.ok) return "kept";
  if (outcome.refusal.is === "version moved") return outcome.refusal.current as Found;
  const taken = (await modelNamed(c.var.db, value.maker, value.model))!;
  // The same form sent twice.
  return !found && taken.id === id ? "kept" : { taken };
}

function withNameTaken(view: ModelView, name: string): ModelView {
  const text = `${name} has a map already; change that one, or name this one otherwise.`;
  return { ...view, errors: new Map([...view.errors, ["unit.model", text]]) };
}

const modelOf = ({ read: { input }, notes }: ModelView): Model => {
  const { maker, model, hazards } = input.unit;
  return given({ maker, model, map: input.map!, hazards, notes });
};

function fieldsOfModel(model: Found, { context }: Shop): Map<string, string> {
  const { fields } = startFrom(new Map(), model, context);
  const own = [...fields].filter(([name]) => !name.startsWith("cells.") && name !== "meta.modelId");
  return fieldsFrom([...own, ["model.notes", model.notes ?? ""], ["meta.version", String(model.version)]]);
}

function copyOf(source: Found, shop: Shop): Map<string, string> {
  const fields = fieldsOfModel(source, shop);
  fields.delete("meta.version");
  return fields.set("unit.model", `${source.model} (copy)`);
}

const blank = (): Map<string, string> =>
  fieldsFrom(
    ["a1", "a2", "a3"].flatMap((row) => [[`assembly.${row}.name`, ""] as const, [`assembly.${row}.sort`, "board"] as const]),
  );

interface Shown {
  readonly say?: string;
  readonly conflict?: ConflictView;
  readonly standing?: { readonly name: string; readonly href: string };
  readonly status?: 200 | 409 | 422;
}

function show(c: Context<AppEnv>, { settings }: Shop, view: ModelView, found: Found | undefined, shown: Shown = {}) {
  const page = (
    <EditorPage
      frame={frameFor(c, settings.name)}
      script={mapScriptFor(c)}
      view={view}
      heading={found ? `Map of ${found.maker} ${found.model}` : "New map"}
      say={shown.say}
      conflict={shown.conflict}
      standing={shown.standing}
    />
  );
  return pageAnswer(c, page, shown.status);
}
