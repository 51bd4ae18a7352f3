/** Intake: a new estimate, and a draft opened again. One form, one set of buttons, on the server what the script does in the browser. */
import { type Context, Hono } from "hono";
import { earlierCounts } from "../../estimating/closeout/earlierCounts.js";
import { act } from "../../pages/form/act/act.js";
import { takeEarlierCounts } from "../../pages/form/act/counts.js";
import { missingForSaving } from "../../pages/form/complaints.js";
import type { Fields } from "../../pages/form/fields.js";
import { fieldsForOwner } from "../../pages/form/fieldsFor.js";
import { startFrom } from "../../pages/form/model.js";
import { formProblemText } from "../../pages/form/problemText.js";
import { type IntakeView, viewOf } from "../../pages/intake/view.js";
import { earlierJobs } from "../../records/earlierJobs.js";
import { type Estimate, estimates } from "../../records/estimates.js";
import { modelNamed, models } from "../../records/models.js";
import { owners } from "../../records/owners.js";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";
import { formOf, isForm, tokenIn } from "./form.js";
import { around, blankFields, fieldsOfKept, shopOf } from "./intakeFields.js";
import { show, showConflict } from "./intakeShown.js";
import { keepAgain, keepNew } from "./keep.js";
import type { Shop } from "./shop.js";

export const intake = new Hono<AppEnv>();

intake.get("/estimates/new", async (c) => {
  const shop = await shopOf(c);
  const blank = blankFields(shop);
  const model = c.req.query("model") ? await models.find(c.var.db, c.req.query("model")!) : undefined;
  const started = model ? startFrom(blank, model, shop.context) : { fields: blank };
  return show(c, shop, viewOf(started.fields, shop.context, await around(c)), undefined, { say: started.say });
});

intake.post("/estimates/new", (c) => answer(c, undefined));

intake.get("/estimates/:id{[^/.]+}", async (c) => {
  const found = await estimates.find(c.var.db, c.req.param("id"));
  if (!found) return refuse(c, "not found", { detail: "There is no such estimate; it may have been on another shop's records." });
  if (found.issuedAt) return c.redirect(`/jobs/${found.jobId}#revision-${found.revision}`, 303);
  const shop = await shopOf(c, found);
  const view = viewOf(await fieldsOfKept(c, found, shop), shop.context, await around(c, found), true);
  const saved = view.outcome.ok ? "Saved." : "Saved as a draft. It has no price until what is listed is put right.";
  return show(c, shop, view, found, { say: c.req.query("saved") === undefined ? undefined : saved });
});

intake.post("/estimates/:id{[^/.]+}", async (c) => {
  const found = await estimates.find(c.var.db, c.req.param("id"));
  if (!found) return refuse(c, "not found", { detail: "There is no such estimate; it may have been on another shop's records." });
  return answer(c, found);
});

/** Does what the pressed button says and shows the form again, or writes it and goes on. */
async function answer(c: Context<AppEnv>, found: Estimate | undefined) {
  if (!isForm(c)) return refuse(c, "media type unsupported", { detail: "Send the form as application/x-www-form-urlencoded." });
  const { fields: sent, intent } = await formOf(c);
  const fields = intent === "fresh prices" ? new Map(sent).set("meta.fresh", "on") : sent;
  const shop = await shopOf(c, found, fields);
  const { context } = shop;
  const surroundings = { ...(await around(c, found)), unsaved: true };
  const taken = await take(c, shop, intent, fields, found?.jobId);
  if (taken) return show(c, shop, viewOf(taken.fields, context, surroundings), found, { say: taken.say });
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

/** What fills the form from the shop's records. */
async function take(
  c: Context<AppEnv>,
  { context }: Shop,
  intent: string,
  fields: Fields,
  jobId: string | undefined,
): Promise<{ fields: Fields; say?: string | undefined } | undefined> {
  switch (intent) {
    case "take model": {
      const [maker, name] = [fields.get("unit.maker")?.trim() ?? "", fields.get("unit.model")?.trim() ?? ""];
      const model = await modelNamed(c.var.db, maker, name);
      if (model) return startFrom(fields, model, context);
      const which = `${maker} ${name}`.trim() || "an unnamed model";
      return { fields, say: `No map is kept for ${which} yet. Sketch it below and keep it for next time, or count boards.` };
    }
    case "earlier counts": {
      const [maker, name] = [fields.get("unit.maker")?.trim() ?? "", fields.get("unit.model")?.trim() ?? ""];
      if (maker === "" || name === "") return { fields, say: "Fill in maker and model first." };
      const { jobs, seen } = await earlierJobs(c.var.db, maker, name, jobId);
      if (jobs === 0) return { fields, say: `No other job of ${maker} ${name} was issued yet.` };
      return takeEarlierCounts(fields, earlierCounts(seen, jobs), jobs, context);
    }
    case "take owner": {
      const owner = await owners.find(c.var.db, fields.get("owner.id") ?? "");
      if (!owner) return { fields, say: "Choose an owner on record first." };
      const known = fieldsForOwner(owner).map(([name, text]) => [name, text ?? ""] as const);
      return { fields: new Map([...fields, ...known]), say: `Filled in from the record of ${owner.name}.` };
    }
    case "fresh prices": {
      const { name, version } = context.rateBook;
      const today = new Map(fields).set("meta.asOf", context.today);
      return { fields: today, say: `Priced by ${name}, version ${version}, and the offers on record today. Save to keep it.` };
    }
    default:
      return undefined;
  }
}

function withMissing(view: IntakeView, missing: ReturnType<typeof missingForSaving>): IntakeView {
  const added = missing.map((problem) => ({
    field: problem.field,
    text: formProblemText(problem, view.read.draft, view.context),
  }));
  const errors = new Map([...added.map(({ field, text }) => [field, text] as const), ...view.errors]);
  return { ...view, complaints: [...added, ...view.complaints], errors };
}
