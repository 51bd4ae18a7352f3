/**
 * Writes what a form says: owner, unit, job, estimate, and the model's map when it is to be kept. The ids of a new job all come
 * from the form's token, so sending the same form twice writes one job.
 */
import type { Party } from "../../estimating/input.js";
import { modelFrom } from "../../pages/form/model.js";
import type { Read } from "../../pages/form/readForm.js";
import type { Database, Instant } from "../../records/database.js";
import { type Estimate, type EstimateValue, estimates } from "../../records/estimates.js";
import { type JobValue, jobs } from "../../records/jobs.js";
import { modelNamed, models } from "../../records/models.js";
import { owners } from "../../records/owners.js";
import { type UnitRecord, units } from "../../records/units.js";

export interface Keeping {
  readonly db: Database;
  readonly at: Instant;
  readonly read: Read;
}

export async function keepNew({ db, at, read }: Keeping, token: string): Promise<Kept> {
  const there = await estimates.find(db, token);
  if (there)
    return JSON.stringify(there.input) === JSON.stringify(estimateValue(read, token).input)
      ? { is: "kept" }
      : { is: "moved", current: there };
  const modelId = await keepModel({ db, at, read });
  const ownerId = await keepOwner({ db, at, read }, token);
  await units.add(db, token, unitValue(read, ownerId, modelId), at);
  await jobs.add(db, token, { ...jobValue(read), ownerId, unitId: token, arrivedOn: read.input.asOf }, at);
  await estimates.add(db, token, estimateValue(read, token), at);
  return { is: "kept" };
}

export type Kept = { readonly is: "kept" } | { readonly is: "moved" | "issued"; readonly current: Estimate };

/** The estimate first: if someone else saved it, nothing else is touched. */
export async function keepAgain({ db, at, read }: Keeping, estimate: Estimate, version: number): Promise<Kept> {
  const answer = await estimates.replace(db, estimate.id, version, estimateValue(read, estimate.jobId, estimate), at);
  if (answer.is === "moved" || answer.is === "issued") return answer;
  if (answer.is !== "replaced") throw new Error(`Estimate ${estimate.id} could not be written: ${answer.is}.`);

  const modelId = await keepModel({ db, at, read });
  const job = await jobs.find(db, estimate.jobId);
  if (!job) throw new Error(`Estimate ${estimate.id} has no job.`);
  const ownerId = await keepOwner({ db, at, read }, crypto.randomUUID());
  const unit = await units.find(db, job.unitId);
  if (unit) {
    const value = { ...unitValue(read, ownerId, modelId ?? unit.modelId), ...(unit.notes && { notes: unit.notes }) };
    await units.replace(db, unit.id, unit.version, value, at);
  }
  const { unitId, arrivedOn, notes } = job;
  await jobs.replace(db, job.id, job.version, { ...jobValue(read), ownerId, unitId, arrivedOn, ...(notes && { notes }) }, at);
  return { is: "kept" };
}

/** The owner on record, brought up to date; or a new one under `freshId`. */
async function keepOwner({ db, at, read }: Keeping, freshId: string): Promise<string> {
  const known = read.draft.owner.id;
  const party = read.input.paperwork?.owner ?? { name: "" };
  const old = known ? await owners.find(db, known) : undefined;
  if (!old) {
    await owners.add(db, freshId, party, at);
    return freshId;
  }
  const { taxNumber, registration, notes, language, locale } = old;
  const beside = {
    ...(taxNumber && { taxNumber }),
    ...(registration && { registration }),
    ...(notes && { notes }),
    ...(language && { language }),
    ...(locale && { locale }),
  };
  const value = { ...party, ...beside };
  if (!sameParty(old, party)) await owners.replace(db, old.id, old.version, value, at);
  return old.id;
}

const sameParty = (a: Party, b: Party): boolean =>
  a.name === b.name &&
  a.phone === b.phone &&
  a.email === b.email &&
  (a.address ?? []).join("\n") === (b.address ?? []).join("\n");

/** Id of the model's record: the one kept now, or the one the form started from. */
async function keepModel({ db, at, read }: Keeping): Promise<string | undefined> {
  const { meta } = read.draft;
  const started = meta.modelId ? await models.find(db, meta.modelId) : undefined;
  const model = meta.keepModel ? modelFrom(read) : undefined;
  if (!model) return started?.id;
  const old = await modelNamed(db, model.maker, model.model);
  if (old) {
    await models.replace(db, old.id, old.version, { ...model, ...(old.notes && { notes: old.notes }) }, at);
    return old.id;
  }
  const id = crypto.randomUUID();
  await models.add(db, id, model, at);
  return id;
}

function unitValue({ input }: Read, ownerId: string, modelId: string | undefined): UnitRecord {
  const { maker, model, serial, declaredValue, hazards } = input.unit;
  return {
    ownerId,
    maker,
    model,
    ...(modelId && { modelId }),
    ...(serial && { serial }),
    ...(declaredValue !== undefined && { declaredValue }),
    ...(hazards && { hazards }),
  };
}

function jobValue({ input }: Read): Pick<JobValue, "reported" | "condition" | "accessories"> {
  const { reported, condition, accessories } = input.unit;
  return { ...(reported && { reported }), ...(condition && { condition }), ...(accessories && { accessories }) };
}

/** The shop and the owner stand on record and are put on the paper when it is printed; what the draft said beyond that stays. */
function estimateValue({ input }: Read, jobId: string, old?: Estimate): EstimateValue {
  const { rateBook, paperwork: _, ...bare } = input;
  const paperwork = old?.input.paperwork;
  return {
    jobId,
    rateBookId: rateBook.id,
    rateBookVersion: rateBook.version,
    input: { ...bare, ...(paperwork && { paperwork }) },
  };
}
