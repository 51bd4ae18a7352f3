/** Intake: a new estimate, and a draft opened again. One form, one set of buttons, on the server what the script does in the browser. */
import { type Context, Hono } from "hono";
import type { Refusal } from "../../acts/act.js";
import { carryOut } from "../../acts/carryOut.js";
import { jobAsItStands } from "../../acts/job.js";
import { keepForNextTime } from "../../acts/keepForNextTime.js";
import { saveDraft } from "../../acts/saveDraft.js";
import { takeIn } from "../../acts/takeIn.js";
import { earlierCounts } from "../../estimating/closeout/earlierCounts.js";
import { act } from "../../pages/form/act/act.js";
import { countedOtherwise, takeEarlierCounts } from "../../pages/form/act/counts.js";
import { addNext } from "../../pages/form/act/typed.js";
import { missingForSaving } from "../../pages/form/complaints.js";
import { drawnIn, withDrawn } from "../../pages/form/drawn.js";
import { type Fields, idOf } from "../../pages/form/fields.js";
import { fieldsForOwner } from "../../pages/form/fieldsFor.js";
import { formProblemText } from "../../pages/form/problemText.js";
import { readForm } from "../../pages/form/readForm.js";
import { type IntakeView, viewOf } from "../../pages/intake/view.js";
import type { Kept } from "../../records/columns.js";
import { earlierJobs } from "../../records/earlierJobs.js";
import type { Estimate } from "../../records/estimates.js";
import { type Model, modelNamed, models } from "../../records/models.js";
import { owners } from "../../records/owners.js";
import { listed } from "../../wording/list.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { refuse } from "../problems/refuse.js";
import { begunBy, begunFields, draftsSaid, dropBegun, keepBegun } from "./begun.js";
import { formOf, isForm, tokenIn } from "./form.js";
import {
  around,
  asOpened,
  blankFields,
  type Drafted,
  draftedIn,
  fieldsOfKept,
  fieldsOfMap,
  looksOf,
  saidIn,
  shopOf,
  withMapSeen,
} from "./intakeFields.js";
import { show, showConflict } from "./intakeShown.js";
import type { Shop } from "./shop.js";

export const intake = new Hono<AppEnv>();

const NO_ESTIMATE = { detail: "There is no such estimate; it may have been on another shop's records." };

intake.get("/estimates/new", async (c) => {
  const shop = await shopOf(c);
  const asked = c.req.query("draft");
  const like = c.req.query("model");
  const [begun, model] = await Promise.all([asked && begunFields(c, asked), like && models.find(c.var.db, like)]);
  const blank = begun || blankFields(shop);
  const started = model ? await startedFrom(c, blank, model, shop) : { fields: blank, say: undefined };
  const [surroundings, others] = await Promise.all([
    around(c, undefined, started.fields),
    asked ? undefined : begunBy(c, shop.settings),
  ]);
  return show(
    c,
    shop,
    viewOf(asOpened(c, started.fields), shop.context, begun ? { ...surroundings, unsaved: true } : surroundings),
    undefined,
    {
      say: asked && !begun ? "What you began is no longer kept: it was saved or thrown away meanwhile." : started.say,
      ...(others && { begun: others }),
    },
  );
});

intake.post("/estimates/new", (c) => answer(c, undefined));

intake.get("/estimates/:id{[^/.]+}", async (c) => {
  const found = await draftedIn(c, c.req.param("id"));
  if (!found) return refuse(c, "not found", NO_ESTIMATE);
  const { estimate, job } = found;
  if (estimate.issuedAt) return c.redirect(`/jobs/${job.id}#revision-${estimate.revision}`, 303);
  const shop = await shopOf(c, found);
  const fields = fieldsOfKept(found, shop);
  const [seen, surroundings] = await Promise.all([withMapSeen(c.var.db, fields), around(c, found, fields)]);
  const view = viewOf(asOpened(c, seen), shop.context, surroundings, true);
  const saved = view.outcome.ok ? "Saved." : "Saved as a draft. It has no price until what is listed is put right.";
  const kept = await keptText(c, estimate, c.req.query("kept")?.split(",") ?? []);
  return show(c, shop, view, found, { say: c.req.query("saved") === undefined ? undefined : saved + kept });
});

intake.post("/estimates/:id{[^/.]+}", async (c) => {
  const found = await draftedIn(c, c.req.param("id"));
  return found ? answer(c, found) : refuse(c, "not found", NO_ESTIMATE);
});

/** Does what the pressed button says and shows the form again, or writes it and goes on. */
async function answer(c: Context<AppEnv>, found: Drafted | undefined) {
  if (!isForm(c)) return refuse(c, "media type unsupported", { detail: "Send the form as application/x-www-form-urlencoded." });
  const { fields: sent, intent } = await formOf(c);
  if (!found && intent === "keep") return keepBegun(c, sent);
  if (!found && intent === "throw away") {
    await dropBegun(c, sent);
    return c.redirect(c.req.header("referer")?.endsWith("/estimates/new") ? "/estimates/new" : "/", 303);
  }
  const fields = intent === "fresh prices" ? new Map(sent).set("meta.fresh", "on") : sent;
  const shop = await shopOf(c, found, fields);
  if (intent === "save")
    return save(c, shop, fields.get("next.what")?.trim() ? addNext(fields, shop.context).fields : fields, found);
  const { context } = shop;
  const surroundings = { ...(await around(c, found, fields)), unsaved: true };
  const taken = await take(c, shop, intent, fields, found?.job.id);
  if (taken) return show(c, shop, viewOf(taken.fields, context, surroundings), found, { say: taken.say });
  const { fields: acted, say } = act(intent, fields, context);
  return show(c, shop, viewOf(acted, context, surroundings, intent === "recalculate"), found, { say });
}

async function save(c: Context<AppEnv>, shop: Shop, fields: Fields, found: Drafted | undefined) {
  const read = readForm(fields, shop.context);
  const missing = missingForSaving(read.draft);
  const shownAgain = async () => viewOf(fields, shop.context, { ...(await around(c, found)), unsaved: true }, true);
  if (read.problems.length > 0 || missing.length > 0)
    return show(c, shop, withMissing(await shownAgain(), missing), found, {
      say: "Not saved yet: something has to be put right first.",
      status: 422,
    });

  const said = saidIn(read, shop.context);
  const id = found?.estimate.id ?? tokenIn(fields);
  const outcome = found
    ? await carryOut(
        saveDraft,
        found.desk ?? deskOf(c),
        { jobId: found.job.id, ...said },
        { id, seen: "any", drawnFrom: drawnFrom(fields) },
      )
    : await carryOut(takeIn, deskOf(c), { ...said, arrivedOn: shop.context.today }, { id, begun: draftsSaid(fields) });
  if (outcome.ok) {
    const keep = Object.entries(read.draft.line).flatMap(([key, line]) => (line.keep ? [idOf(key)] : []));
    if (keep.length > 0) await carryOut(keepForNextTime, deskOf(c), { items: keep }, { estimate: id });
    const kept = keep.length > 0 ? `&kept=${keep.map(encodeURIComponent).join()}` : "";
    return c.redirect(`/estimates/${id}?saved${kept}${looksOf(fields)}`, 303);
  }
  const { refusal } = outcome;
  if (refusal.is === "estimate issued") {
    const say =
      "This revision was issued meanwhile and never changes. What you typed stands below, not saved; start a new revision from the job.";
    return show(c, shop, await shownAgain(), found, { say, status: 409 });
  }
  if (refusal.is !== "version moved") return refuse(c, refusal.is, refusal);
  return showConflict(c, shop, fields, refusal, await standing(c, refusal));
}

/** What came of keeping these lines for next time: decided once more, which writes nothing. */
async function keptText(c: Context<AppEnv>, { id, input }: Estimate, lines: readonly string[]): Promise<string> {
  if (lines.length === 0) return "";
  const decided = await keepForNextTime.decide(deskOf(c), { items: [...lines] }, { estimate: id });
  if ("refused" in decided) {
    const { detail, errors = [] } = decided.refused;
    return ` Not kept for next time: ${[...(detail ? [detail] : []), ...errors.map((fault) => fault.detail)].join(" ")}`;
  }
  const { works, parts } = decided.answer;
  const names = input.items
    .filter((item) => lines.includes(item.id))
    .flatMap(({ own, part }) => [...(own ? [own.name] : []), ...(part && "own" in part ? [part.own.name] : [])]);
  return [...works, ...parts].length > 0 ? "" : ` Kept for next time: ${listed(names)}.`;
}

const drawnFrom = (fields: Fields): number => Number(fields.get("meta.version")) || 0;

/** What is in the way, as it stands by now. */
async function standing(c: Context<AppEnv>, { current }: Refusal): Promise<Drafted | undefined> {
  if (!current) return undefined;
  const { id, jobId } = current as Estimate;
  const job = await jobAsItStands(c.var.db, jobId);
  const estimate = job?.revision(id);
  return job && estimate && { job, estimate };
}

/** The model's map, and what of its counts earlier jobs had otherwise. */
async function startedFrom(
  c: Context<AppEnv>,
  fields: Fields,
  model: Model & Kept,
  { context }: Pick<Shop, "context">,
  jobId?: string,
) {
  const started = fieldsOfMap(fields, model, context);
  const { jobs, seen } = await earlierJobs(c.var.db, model.maker, model.model, jobId);
  const otherwise = countedOtherwise(started.fields, earlierCounts(seen, jobs), context);
  return { ...started, say: [started.say, otherwise].filter(Boolean).join(" ") };
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
      if (model) return startedFrom(c, fields, model, { context }, jobId);
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
      const stands = new Map([...drawnIn(fields), ...known]);
      return { fields: withDrawn(new Map([...fields, ...known]), stands), say: `Filled in from the record of ${owner.name}.` };
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
