/** What the intake form starts from, what it is priced against, what it can be filled in from, and what it says in the end. */
import type { Context } from "hono";
import { uuidv7 } from "uuidv7";
import type { Desk } from "../../acts/act.js";
import type { DraftSaid } from "../../acts/draft.js";
import type { JobAsItStands } from "../../acts/job.js";

import type { FormContext } from "../../pages/form/context.js";
import { readDrawn, withDrawn } from "../../pages/form/drawn.js";
import { type Fields, fieldsFrom } from "../../pages/form/fields.js";
import { fieldsFor } from "../../pages/form/fieldsFor.js";
import { modelFrom, startFrom } from "../../pages/form/model.js";
import type { Read } from "../../pages/form/readForm.js";
import { USUAL_CONFIDENCE } from "../../pages/form/terms.js";
import type { Surroundings } from "../../pages/intake/view.js";
import type { Kept } from "../../records/columns.js";
import type { Database } from "../../records/database.js";
import { earlierWords } from "../../records/earlierJobs.js";
import { type Estimate, onTop } from "../../records/estimates.js";
import { type Model, modelNamed, models } from "../../records/models.js";
import { lastOfModel } from "../../records/outcomes.js";
import { owners } from "../../records/owners.js";
import { search, wordsIn } from "../../records/search.js";
import { shopSettings } from "../../records/settings.js";
import { day, duration } from "../../wording/time.js";
import { LANGUAGES, languageName } from "../../wording/tongue.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { openShop, type Shop } from "./shop.js";
import { soFar } from "./soFar.js";

/** A draft, and the job it is of. */
export interface Drafted {
  /** Where it was read. */
  readonly desk?: Desk;
  readonly job: JobAsItStands;
  readonly estimate: Estimate;
}

export async function draftedIn(c: Context<AppEnv>, id: string): Promise<Drafted | undefined> {
  const desk = deskOf(c);
  const job = await desk.job({ estimate: id });
  const estimate = job?.revision(id);
  return job && estimate && { desk, job, estimate };
}

/** A draft keeps its rate book, parts and offers until it is asked to take today's. */
export async function shopOf(c: Context<AppEnv>, found?: Drafted, fields?: Fields): Promise<Shop> {
  if (!found || fields?.get("meta.fresh")) return openShop(c.var.db, c.var.clock());
  const { rateBook, kinds = [], offers = [], exchange = [] } = found.job.inputOf(found.estimate);
  return openShop(c.var.db, c.var.clock(), { rateBook, kinds, offers, exchange });
}

const LOOKS = ["open", "at"] as const;

/** A link may say which parts of the form to draw, parted by spaces, and the lines of which assembly: `?open=intake&at=supply`. */
export const asOpened = (c: Context<AppEnv>, fields: Fields): Fields =>
  new Map([
    ...fields,
    ...LOOKS.flatMap((name) => c.req.queries(name)?.map((text) => [`meta.${name}`, text.slice(0, 400)] as const) ?? []),
  ]);

/** What is drawn stays drawn over a saving. */
export const looksOf = (fields: Fields): string =>
  LOOKS.map((name) => (fields.has(`meta.${name}`) ? `&${name}=${encodeURIComponent(fields.get(`meta.${name}`)!)}` : "")).join("");

/** The draft as fields, with owner, unit and visit as on record. */
export function fieldsOfKept({ job, estimate }: Drafted, { context }: Shop): Map<string, string> {
  const fields = fieldsFor({ ...job.inputOf(estimate), rateBook: context.rateBook, paperwork: { owner: job.owner } }, context);
  fields.set("owner.id", job.owner.id);
  if (job.unit.modelId) fields.set("meta.modelId", job.unit.modelId);
  const row = estimate.version - onTop(job.unit, job.job);
  return withDrawn(fields.set("meta.estimate", estimate.id).set("meta.version", String(row)), fields);
}

/** Which map is on record for the model that the form names: keeping the form's takes the place of that one, and of no other. */
export async function withMapSeen(db: Database, fields: Fields): Promise<Map<string, string>> {
  const [maker, name] = [fields.get("unit.maker")?.trim() ?? "", fields.get("unit.model")?.trim() ?? ""];
  const map = maker && name ? await modelNamed(db, maker, name) : undefined;
  return map ? new Map(fields).set("meta.modelSeen", `${map.id} ${map.version}`) : new Map(fields);
}

export function fieldsOfMap(fields: Fields, model: Model & Kept, context: FormContext) {
  const { fields: started, say } = startFrom(fields, model, context);
  return { fields: new Map(started).set("meta.modelSeen", `${model.id} ${model.version}`), say };
}

export function blankFields({ context, settings }: Shop): Map<string, string> {
  const blank = fieldsFrom([
    ["meta.token", uuidv7()],
    ["meta.asOf", context.today],
    ["terms.queue", String(settings.benchQueueDays)],
    ["terms.confidence", USUAL_CONFIDENCE],
    ["terms.diagnosis", context.rateBook.fees.diagnosis.amount > 0 ? "on" : ""],
  ]);
  for (const row of ["a1", "a2", "a3"]) blank.set(`assembly.${row}.name`, "").set(`assembly.${row}.sort`, "board");
  return blank;
}

/** What the form says of the draft, and of the records it refers to. The shop and the owner are put on the paper when it is printed. */
export function saidIn(read: Read, context: FormContext): DraftSaid {
  const { rateBook, paperwork, ...input } = read.input;
  const { meta, owner } = read.draft;
  const map = meta.keepModel ? modelFrom(read) : undefined;
  return {
    ...{ rateBookId: rateBook.id, rateBookVersion: rateBook.version, unfinished: true },
    input,
    owner: { ...paperwork?.owner, ...(owner.id && { id: owner.id }), ...(owner.language && { language: owner.language }) },
    ...(meta.modelId && { modelId: meta.modelId }),
    ...(map && {
      map: { map: map.map, ...(map.hazards && { hazards: map.hazards }), ...(meta.modelSeen && { replaces: meta.modelSeen }) },
    }),
    was: readDrawn(read.fields, context),
  } as DraftSaid;
}

/** Names to choose from: the newest two hundred owners, all models, and what earlier estimates said in own words. */
export async function around(c: Context<AppEnv>, found?: Drafted, fields: Fields = new Map()): Promise<Surroundings> {
  const [people, known, ownWords, seen] = await Promise.all([
    owners.list(c.var.db, { limit: 200, newestFirst: true }),
    models.list(c.var.db, { limit: 1000 }),
    earlierWords(c.var.db),
    seenBefore(c.var.db, fields, found),
  ]);
  const own = found && !people.rows.some(({ id }) => id === found.job.owner.id) ? [found.job.owner] : [];
  return {
    action: found ? `/estimates/${found.estimate.id}` : "/estimates/new",
    makers: [...new Set(known.rows.map(({ maker }) => maker))].sort(),
    models: known.rows.map(({ id, maker, model }) => ({ id, maker, model })),
    owners: [...own, ...people.rows]
      .filter(({ name }) => name !== "")
      .map(({ id, name, phone, email }) => ({
        id,
        label: [name, phone ?? email].filter(Boolean).join(", "),
      })),
    languages: LANGUAGES.map((language) => [language, languageName(language)] as const),
    ownWords,
    ...(seen.length > 0 && { seen }),
    ...(found && { soFar: soFar(found.job, found.estimate.revision) }),
    saved: found !== undefined,
  };
}

const MOST_SEEN = 5;

/** Other jobs of the serial number, and, while no record is chosen, of the owner's name; and what the last one of the model took. */
async function seenBefore(db: Database, fields: Fields, found: Drafted | undefined): Promise<NonNullable<Surroundings["seen"]>> {
  const said = (name: string) => fields.get(name)?.trim() ?? "";
  const typed = { serial: said("unit.serial"), owner: said("owner.id") === "" ? said("owner.name") : "" };
  const of = async (by: "serial" | "owner") => {
    const jobs = typed[by] === "" ? [] : await search(db, wordsIn(typed[by]), 4 * MOST_SEEN);
    return jobs
      .filter((job) => job[by]?.toLowerCase() === typed[by].toLowerCase() && job.jobId !== found?.job.job.id)
      .slice(0, MOST_SEEN)
      .map(({ jobId, number, unit, owner }) => ({ by, href: `/jobs/${jobId}`, text: `${number}, ${unit}, ${owner}` }));
  };
  const unit = [said("unit.maker"), said("unit.model")];
  const [serial, owner, last] = await Promise.all([
    of("serial"),
    of("owner"),
    unit.includes("") ? undefined : lastOfModel(db, unit.join(" "), found?.job.job.id),
  ]);
  const model = async (of: NonNullable<typeof last>) => {
    const { locale } = await shopSettings(db);
    const [worked, allowed] = [of.actualMinutes, of.allowedMinutes].map((minutes) => duration(minutes, locale));
    return {
      by: "model" as const,
      href: `/jobs/${of.jobId}`,
      text: `${of.number}, ${day(of.closedOn, locale)}: ${worked} worked, ${allowed} planned for what was done`,
    };
  };
  return [...serial, ...owner, ...(last ? [await model(last)] : [])];
}
