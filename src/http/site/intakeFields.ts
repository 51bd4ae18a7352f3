/** What the intake form starts from, what it is priced against, and what it can be filled in from. */
import type { Context } from "hono";
import { uuidv7 } from "uuidv7";
import { type Fields, fieldsFrom } from "../../pages/form/fields.js";
import { fieldsFor } from "../../pages/form/fieldsFor.js";
import { USUAL_CONFIDENCE } from "../../pages/form/terms.js";
import type { Surroundings } from "../../pages/intake/view.js";
import { type Estimate, estimates } from "../../records/estimates.js";
import { jobs } from "../../records/jobs.js";
import { models } from "../../records/models.js";
import { owners } from "../../records/owners.js";
import { units } from "../../records/units.js";
import type { AppEnv } from "../bindings.js";
import { openShop, type Shop } from "./shop.js";

/** A draft keeps its rate book, parts and offers until it is asked to take today's. */
export async function shopOf(c: Context<AppEnv>, found?: Estimate, fields?: Fields): Promise<Shop> {
  if (!found || fields?.get("meta.fresh")) return openShop(c.var.db, c.var.clock());
  const { rateBook, kinds = [], offers = [] } = await estimates.inputOf(c.var.db, found);
  return openShop(c.var.db, c.var.clock(), { rateBook, kinds, offers });
}

/** The stored input as fields, with the owner as on record. */
export async function fieldsOfKept(c: Context<AppEnv>, found: Estimate, { context }: Shop): Promise<Map<string, string>> {
  const job = await jobs.find(c.var.db, found.jobId);
  const [owner, unit] = await Promise.all([job && owners.find(c.var.db, job.ownerId), job && units.find(c.var.db, job.unitId)]);
  const input = { ...found.input, rateBook: context.rateBook, paperwork: owner ? { owner } : {} };
  const fields = fieldsFor(input, context);
  if (job) fields.set("owner.id", job.ownerId);
  if (unit?.modelId) fields.set("meta.modelId", unit.modelId);
  fields.set("meta.estimate", found.id).set("meta.version", String(found.version));
  return fields;
}

export function blankFields({ context, settings }: Shop): Map<string, string> {
  const blank = fieldsFrom([
    ["meta.token", uuidv7()],
    ["meta.asOf", context.today],
    ["unit.grade", context.rateBook.grades[0]?.id ?? ""],
    ["terms.queue", String(settings.benchQueueDays)],
    ["terms.confidence", USUAL_CONFIDENCE],
    ["terms.diagnosis", context.rateBook.fees.diagnosis.amount > 0 ? "on" : ""],
  ]);
  for (const row of ["a1", "a2", "a3"]) blank.set(`assembly.${row}.name`, "").set(`assembly.${row}.sort`, "board");
  return blank;
}

/** Names to choose from: the newest two hundred owners, and all models. */
export async function around(c: Context<AppEnv>, found?: Estimate): Promise<Surroundings> {
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
