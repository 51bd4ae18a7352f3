/** A unit is taken in: owner, unit, job, first draft and event stand together, or none of them does. */
import { z } from "zod";
import { same } from "../estimating/agreement/canonical.js";
import { CHAIN_START } from "../estimating/agreement/chain.js";
import { estimates, withFacts } from "../records/estimates.js";
import { jobs } from "../records/jobs.js";
import { typedDrafts } from "../records/typedDrafts.js";
import { units } from "../records/units.js";
import { act, refused } from "./act.js";
import { draftFields, factsSaid, mapSaid, ownerSaid, reckoned, recordsNamed } from "./draft.js";
import { day } from "./field.js";
import { keptEstimate } from "./shapes/resources.js";

const fields = z.strictObject({ ...draftFields, arrivedOn: day("Arrived on") }).meta({ id: "TakenIn" });

export const takeIn = act({
  name: "takeIn",
  title: "Take a unit in",
  fields,
  answer: keptEstimate,
  /** `id` becomes that of unit, job and draft, and of the owner where it is a new one: what comes twice is taken in once. `begun`: drafts that it was typed as. */
  decide: async (desk, said, { id, begun = [] }: { readonly id: string; readonly begun?: readonly string[] }) => {
    const { db, at } = desk;
    const [there, records] = await Promise.all([estimates.find(db, id), recordsNamed(db, said)]);
    const owner = ownerSaid(desk, said, records, id);
    const map = mapSaid(desk, said, records);
    const { facts, unit, visit } = factsSaid({ maker: "", model: "" }, said);
    const input = withFacts(said.input, facts);
    if (there) {
      const { paperwork: _, ...asKept } = there.input;
      if (same(asKept, input)) return { answer: there };
      return refused("version moved", { current: there });
    }
    const clashes = [...(owner.clashes ?? []), ...(map.clashes ?? [])];
    if (clashes.length > 0) return refused("version moved", { errors: clashes });
    const made = await reckoned(said, records, input);
    if ("refused" in made) return made;
    const { rateBookId, rateBookVersion, arrivedOn } = said;
    const { maker, model } = facts;
    const draft = { id, jobId: id, revision: 1, rateBookId, rateBookVersion, input, ...made };
    const { record, write } = estimates.made(db, draft, 0, at);
    const followed = map.id === undefined ? {} : { modelId: map.id };
    return {
      answer: record,
      writes: [
        ...(owner.writes ?? []),
        ...(map.writes ?? []),
        units.made(db, id, { ...unit, maker, model, ownerId: owner.id, ...followed }, at).write,
        (await jobs.made(db, id, { ...visit, ownerId: owner.id, unitId: id, arrivedOn }, at)).write,
        write,
        ...begun.map((draft) => typedDrafts.dropped(db, desk.staff?.id, draft)),
      ],
      trail: {
        job: id,
        head: { number: 0, hash: CHAIN_START },
        events: [{ is: "draft begun", content: { estimate: id, revision: 1 } }],
      },
    };
  },
});
