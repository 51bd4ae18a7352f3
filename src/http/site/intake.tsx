/** Intake: a new estimate, and a draft opened again. One form, one set of buttons, on the server what the script does in the browser. */
import { type Context, Hono } from "hono";
import { uuidv7 } from "uuidv7";
import { act } from "../../pages/form/act/act.js";
import { startFrom } from "../../pages/form/act/startFrom.js";
import { type Fields, fieldsFrom } from "../../pages/form/fields.js";
import { fieldsFor, fieldsForOwner } from "../../pages/form/fieldsFor.js";
import { missingForSaving } from "../../pages/form/forSaving.js";
import { formProblemText } from "../../pages/form/problemText.js";
import type { ConflictView } from "../../pages/intake/conflict.js";
import { IntakePage } from "../../pages/intake/intakePage.js";
import { type IntakeView, type Surroundings, viewOf } from "../../pages/intake/view.js";
import { type Estimate, estimates } from "../../records/estimates.js";
import { jobs } from "../../records/jobs.js";
import { modelNamed, models } from "../../records/models.js";
import { owners } from "../../records/owners.js";
import { units } from "../../records/units.js";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";
import { frameFor, pageAnswer, scriptFor } from "./frame.js";
import { keepAgain, keepNew } from "./keep.js";
import { openShop, type Shop } from "./shop.js";

export const intake = new Hono<AppEnv>();

interface Shown {
  readonly say?: string | undefined;
  readonly conflict?: ConflictView;
  readonly status?: 200 | 409 | 422;
}

intake.get("/estimates/new", async (c) => {
  const shop = await openShop(c.var.db, c.var.clock());
  const blank = blankFields(shop);
  const model = c.req.query("model") ? await models.find(c.var.db, c.req.query("model")!) : undefined;
  const started = model ? startFrom(blank, model, shop.context) : { fields: blank };
  return show(c, shop, viewOf(started.fields, shop.context, await around(c)), undefined, { say: started.say });
});

intake.post("/estimates/new", async (c) => {
  const shop = await openShop(c.var.db, c.var.clock());
  return answer(c, shop, undefined);
});

intake.get("/estimates/:id{[^/.]+}", async (c) => {
  const found = await estimates.find(c.var.db, c.req.param("id"));
  if (!found) return refuse(c, "not found", { detail: "There is no such estimate; it may have been on another shop's records." });
  if (found.issuedAt) return c.redirect(`/jobs/${found.jobId}#revision-${found.revision}`, 303);
  const shop = await shopOf(c, found);
  const saved = c.req.query("saved") === undefined ? undefined : "Saved.";
  const view = viewOf(await fieldsOfKept(c, found, shop), shop.context, await around(c, found), true);
  return show(c, shop, view, found, { say: saved });
});

intake.post("/estimates/:id{[^/.]+}", async (c) => {
  const found = await estimates.find(c.var.db, c.req.param("id"));
  if (!found) return refuse(c, "not found", { detail: "There is no such estimate; it may have been on another shop's records." });
  return answer(c, await shopOf(c, found), found);
});

/** Does what the pressed button says and shows the form again, or writes it and goes on. */
async function answer(c: Context<AppEnv>, shop: Shop, found: Estimate | undefined) {
  if (!isForm(c)) return refuse(c, "media type unsupported", { detail: "Send the form as application/x-www-form-urlencoded." });
  const { fields, intent } = await formOf(c);
  const { context } = shop;
  const surroundings = await around(c, found);
  if (intent === "take model") {
    const { fields: started, say } = await takeModel(c, shop, fields);
    return show(c, shop, viewOf(started, context, surroundings), found, { say });
  }
  if (intent === "take owner") {
    const owner = await owners.find(c.var.db, fields.get("owner.id") ?? "");
    const filled = new Map(fields);
    for (const [name, text] of fieldsForOwner(owner)) if (owner) filled.set(name, text ?? "");
    const say = owner ? `Filled in from the record of ${owner.name}.` : "Choose an owner on record first.";
    return show(c, shop, viewOf(filled, context, surroundings), found, { say });
  }
  if (intent !== "save") {
    const { fields: acted, say } = act(intent, fields, context);
    return show(c, shop, viewOf(acted, context, surroundings, intent === "recalculate"), found, { say });
  }

  const view = viewOf(fields, context, surroundings, true);
  const missing = missingForSaving(view.read.draft);
  if (view.read.problems.length > 0 || missing.length > 0) {
    return show(c, shop, withMissing(view, missing), found, {
      say: "Not saved yet: something has to be put right first.",
      status: 422,
    });
  }
  const keeping = { db: c.var.db, at: c.var.clock().toISOString(), read: view.read };
  const id = found?.id ?? tokenIn(fields);
  const kept = found ? await keepAgain(keeping, found, Number(fields.get("meta.version")) || 0) : await keepNew(keeping, id);
  if (kept.is === "kept") return c.redirect(`/estimates/${id}?saved`, 303);
  if (kept.is === "issued") {
    const say =
      "This revision was issued meanwhile and never changes. What you typed stands below, not saved; start a new revision from the job.";
    return show(c, shop, view, found, { say, status: 409 });
  }
  return showConflict(c, shop, fields, kept.current);
}

/** Theirs beside ours; saving again then knowingly keeps ours. */
async function showConflict(c: Context<AppEnv>, shop: Shop, fields: Fields, current: Estimate) {
  const theirs = await fieldsOfKept(c, current, shop);
  const ours = new Map(fields).set("meta.version", String(current.version));
  const time = new Intl.DateTimeFormat(shop.settings.locale, {
    dateStyle: "medium",
    timeStyle: "short",
    timeZone: shop.settings.timeZone,
  });
  const conflict = {
    theirs,
    savedAt: time.format(new Date(current.updatedAt)),
    version: current.version,
    href: `/estimates/${current.id}`,
  };
  return show(c, shop, viewOf(ours, shop.context, await around(c, current)), current, { conflict, status: 409 });
}

async function takeModel(c: Context<AppEnv>, { context }: Shop, fields: Fields): Promise<{ fields: Fields; say?: string }> {
  const [maker, name] = [fields.get("unit.maker")?.trim() ?? "", fields.get("unit.model")?.trim() ?? ""];
  const model = await modelNamed(c.var.db, maker, name);
  if (model) return startFrom(fields, model, context);
  const which = `${maker} ${name}`.trim() || "an unnamed model";
  return { fields, say: `No map is kept for ${which} yet. Sketch it below and keep it for next time, or count boards.` };
}

function withMissing(view: IntakeView, missing: ReturnType<typeof missingForSaving>): IntakeView {
  const added = missing.map((problem) => ({
    field: problem.field,
    text: formProblemText(problem, view.read.draft, view.context),
  }));
  const errors = new Map([...added.map(({ field, text }) => [field, text] as const), ...view.errors]);
  return { ...view, complaints: [...added, ...view.complaints], errors };
}

async function show(c: Context<AppEnv>, { settings }: Shop, view: IntakeView, found: Estimate | undefined, shown: Shown = {}) {
  const job = found && (await jobs.find(c.var.db, found.jobId));
  const heading = job && found ? `${job.number}, revision ${found.revision}` : "New estimate";
  const lead = job && found && (
    <p class="links">
      <a href={`/jobs/${job.id}`}>The job</a>
      {found.sheet ? <a href={`/estimates/${found.id}.pdf`}>Estimate PDF</a> : null}
      {found.sheet ? <a href={`/estimates/${found.id}/bench-sheet.pdf`}>Bench sheet PDF</a> : null}
    </p>
  );
  const page = (
    <IntakePage
      frame={frameFor(c, settings.name)}
      script={scriptFor(c)}
      view={view}
      heading={heading}
      lead={lead}
      say={shown.say}
      conflict={shown.conflict}
    />
  );
  return pageAnswer(c, page, shown.status);
}

export async function shopOf(c: Context<AppEnv>, found: Estimate): Promise<Shop> {
  const { rateBook, kinds = [], offers = [] } = await estimates.inputOf(c.var.db, found);
  return openShop(c.var.db, c.var.clock(), { rateBook, kinds, offers });
}

/** The stored input as fields, with the owner as on record. */
async function fieldsOfKept(c: Context<AppEnv>, found: Estimate, { context }: Shop): Promise<Map<string, string>> {
  const job = await jobs.find(c.var.db, found.jobId);
  const [owner, unit] = await Promise.all([job && owners.find(c.var.db, job.ownerId), job && units.find(c.var.db, job.unitId)]);
  const input = { ...found.input, rateBook: context.rateBook, paperwork: owner ? { owner } : {} };
  const fields = fieldsFor(input, context);
  if (job) fields.set("owner.id", job.ownerId);
  if (unit?.modelId) fields.set("meta.modelId", unit.modelId);
  fields.set("meta.estimate", found.id).set("meta.version", String(found.version));
  return fields;
}

function blankFields({ context, settings }: Shop): Map<string, string> {
  const blank = fieldsFrom([
    ["meta.token", uuidv7()],
    ["meta.asOf", context.today],
    ["unit.grade", context.rateBook.grades[0]?.id ?? ""],
    ["terms.queue", String(settings.benchQueueDays)],
    ["terms.diagnosis", context.rateBook.fees.diagnosis.amount > 0 ? "on" : ""],
  ]);
  for (const row of ["a1", "a2", "a3"]) blank.set(`assembly.${row}.name`, "").set(`assembly.${row}.sort`, "board");
  return blank;
}

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;
const tokenIn = (fields: Fields): string => (UUID.test(fields.get("meta.token") ?? "") ? fields.get("meta.token")! : uuidv7());

export const isForm = (c: Context<AppEnv>): boolean =>
  /^application\/x-www-form-urlencoded\b/i.test(c.req.header("content-type") ?? "");

export async function formOf(c: Context<AppEnv>): Promise<{ readonly fields: Fields; readonly intent: string }> {
  const pairs = new URLSearchParams(await c.req.text());
  const intent = pairs.get("intent") ?? "recalculate";
  pairs.delete("intent");
  return { fields: fieldsFrom(pairs), intent };
}

/** Names to choose from: the newest two hundred owners, and all models. */
async function around(c: Context<AppEnv>, found?: Estimate): Promise<Surroundings> {
  const [people, known] = await Promise.all([
    owners.list(c.var.db, { limit: 200, newestFirst: true }),
    models.list(c.var.db, { limit: 1000 }),
  ]);
  const job = found && (await jobs.find(c.var.db, found.jobId));
  const listed = people.rows.some(({ id }) => id === job?.ownerId);
  const own = job && !listed ? await owners.find(c.var.db, job.ownerId) : undefined;
  return {
    action: found ? `/estimates/${found.id}` : "/estimates/new",
    makers: [...new Set(known.rows.map(({ maker }) => maker))].sort(),
    models: known.rows.map(({ id, maker, model }) => ({ id, maker, model })),
    owners: [...(own ? [own] : []), ...people.rows].map(({ id, name, phone, email }) => ({
      id,
      label: [name, phone ?? email].filter(Boolean).join(", "),
    })),
    saved: found !== undefined,
  };
}
