/** A draft is saved, with the records it refers to: one transaction that looks at the version of each. */
import { z } from "zod";
import { same } from "../estimating/agreement/canonical.js";
import { type EstimateValue, estimates, factsOf, onTop, withFacts } from "../records/estimates.js";
import { jobs } from "../records/jobs.js";
import { units } from "../records/units.js";
import { act, refused } from "./act.js";
import { draftFields, factsSaid, mapSaid, ownerSaid, reckoned, recordsNamed, saysAny } from "./draft.js";
import { heldBack, type OnRecord } from "./record.js";
import { ident } from "./shapes/primitives.js";
import { keptEstimate } from "./shapes/resources.js";

interface On extends OnRecord {
  /** Of the row alone, where the sender's form was drawn from it. */
  readonly drawnFrom?: number;
}

export const saveDraft = act({
  name: "replaceEstimate",
  title: "Replace an estimate",
  fields: z.strictObject({ jobId: ident, ...draftFields }).meta({ id: "DraftSaved" }),
  answer: keptEstimate,
  decide: async (desk, said, { id, seen, drawnFrom }: On) => {
    const { db, at } = desk;
    const [job, records] = await Promise.all([desk.job({ estimate: id }), recordsNamed(db, said)]);
    const stands = job?.revision(id);
    const held = heldBack("estimate", stands, seen);
    if (held || !job || !stands) return { refused: held! };
    const etag = `"${stands.version}"`;
    if (stands.issuedAt) return refused("estimate issued", { headers: { etag }, current: stands });

    const owner = said.owner ? ownerSaid(desk, said, records, desk.newId()) : { id: job.owner.id };
    const map = mapSaid(desk, said, records);
    const { facts, unit, visit, clashes } = factsSaid(factsOf(job.unit, job.job), said);
    const { paperwork = stands.input.paperwork, ...rest } = withFacts(said.input, facts);
    const { rateBookId, rateBookVersion } = said;
    const value = { rateBookId, rateBookVersion, input: { ...rest, ...(paperwork && { paperwork }) } };
    const errors = [...(owner.clashes ?? []), ...clashes, ...(map.clashes ?? [])];
    const row = stands.version - onTop(job.unit, job.job);
    const isRestSame = same({ ...value, input: withFacts(value.input, factsOf(job.unit, job.job)) }, pick(stands));
    const overtaken = drawnFrom !== undefined && drawnFrom !== row && !isRestSame;
    if (overtaken || errors.length > 0) return refused("version moved", { errors, current: stands, headers: { etag } });

    const made = await reckoned(said, records, value.input);
    if ("refused" in made) return made;
    const ownerKeys = (of: { readonly ownerId: string }) => (said.owner && owner.id !== of.ownerId ? { ownerId: owner.id } : {});
    const unitKeys = {
      ...unit,
      ...ownerKeys(job.unit),
      ...(map.id !== undefined && map.id !== job.unit.modelId && { modelId: map.id }),
    };
    const jobKeys = { ...visit, ...ownerKeys(job.job) };
    const moved = [unitKeys, jobKeys].filter(saysAny).length;
    const beside = [
      ...(owner.writes ?? []),
      ...(map.writes ?? []),
      ...(saysAny(unitKeys) ? [units.changed(db, job.unit, unitKeys, at).write] : []),
      ...(saysAny(jobKeys) ? [jobs.changed(db, job.job, jobKeys, at).write] : []),
    ];
    if (same(value, pick(stands))) return { answer: { ...stands, version: stands.version + moved }, writes: beside };
    const { record, write } = estimates.changed(db, stands, { ...value, ...made }, at, isRestSame ? 0 : 1);
    return { answer: { ...record, version: record.version + moved }, writes: [write, ...beside] };
  },
});

const pick = ({ rateBookId, rateBookVersion, input }: EstimateValue) => ({ rateBookId, rateBookVersion, input });
