/** Work found while the unit is open: what it costs now and at a later visit, and how it comes into the next draft. */
import { z } from "zod";
import { type ExtraFault, extraFault as priceExtra } from "../estimating/agreement/extraFault.js";
import { type FaultsFound, faultsFound as findFaults } from "../estimating/agreement/faultsFound.js";
import { estimate as compute } from "../estimating/estimate.js";
import type { EstimateInput, WorkItem } from "../estimating/input.js";
import { HAZARDS } from "../estimating/lists.js";
import { type Estimate, estimates, priced } from "../records/estimates.js";
import { shopRows } from "../records/shopRows.js";
import { ownMarginText } from "../wording/risk.js";
import { act, type Desk, refused, wrongField } from "./act.js";
import { itemSaid, withKind } from "./asItem.js";
import { begun, onceMore } from "./beginDraft.js";
import { NO_OWN_WORK } from "./fault.js";
import { line, maybe, note, several, someOf } from "./field.js";
import type { JobAsItStands } from "./job.js";
import { faultOf, lineFields, namesIn, namesWrong } from "./line.js";
import { orPlace, placeFault, placeFields, placeSaid } from "./place.js";
import { faultsFound } from "./shapes/changes.js";
import { keptEstimate } from "./shapes/resources.js";
import { companion } from "./shapes/sheet.js";
import { today } from "./today.js";

const fields = z
  .strictObject({
    reason: note("What you found, for the owner to read"),
    ...lineFields.shape,
    ...placeFields.shape,
    hazards: maybe(someOf("Its dangers", HAZARDS, { hint: "Of work in your own words; cautions follow them." }).readonly()),
    also: maybe(several("Usually goes with it").meta({ description: "Operations to put in beside it, once each, by id" })),
    open: maybe(several("Open now").meta({ description: "Assemblies that stand open beyond those the job opens, by id" })),
    base: maybe(
      line("Seen on top of").meta({
        description: "Id and version of the revision it was priced on, as id:version; another is refused",
      }),
    ),
  })
  .meta({ id: "ExtraFault" });
type Said = z.output<typeof fields>;

const cost = z
  .strictObject({ price: z.int(), net: z.int(), minutes: z.number(), opens: z.array(z.string()).readonly() })
  .meta({ id: "ExtraCost" });
const costs = z
  .strictObject({
    now: cost,
    later: cost,
    laterAtLeast: z.boolean().meta({ description: "Some of the work names no place, so that opening may come on top" }),
    total: z.int().meta({ description: "Of the whole revision with the work in it" }),
    aboveAgreed: maybe(z.int()).meta({ description: "On what is agreed, with what was found of it so far" }),
    companions: maybe(z.array(companion)).meta({
      description: "What usually goes with it and is no item yet; `also` puts it in",
    }),
    faults: maybe(faultsFound).meta({
      description: "This one and those in the draft already: each by itself on top of what was issued, and what it shares",
    }),
    margin: maybe(z.string()).meta({
      description: "What pieces that may prove bad add to a part in own words, and the share of good ones behind it",
    }),
  })
  .meta({ id: "ExtraFaultPriced" });
export type ExtraFaultPriced = z.output<typeof costs>;

interface On {
  readonly job: string;
}

export const priceExtraFault = act({
  name: "priceExtraFault",
  title: "What an extra fault costs now and at a later visit; nothing is kept",
  fields: fields.omit({ base: true }).meta({ id: "ExtraFaultAsked" }),
  answer: costs,
  decide: async (desk, said, on: On) => {
    const found = await foundIn(desk, said, on);
    if ("refused" in found) return found;
    const { job, item, extra } = found;
    const { now, later, laterAtLeast, revised } = extra;
    const outcome = compute(revised);
    if (!outcome.ok) throw new Error("Work that could be priced has problems.");
    const { total } = outcome.sheet.totals;
    const tongue = { ...job.tongue, currency: revised.currency };
    const margin = ownMarginText(outcome.sheet, item, revised.rateBook.scarcity, tongue);
    const companions = (outcome.sheet.companions ?? []).filter(({ items }) => items.includes(item.id));
    const agreed = job.bill()?.totals.total;
    const faults = faultsSince(job, revised);
    const answer: ExtraFaultPriced = {
      now,
      later,
      laterAtLeast,
      total,
      ...(agreed !== undefined && { aboveAgreed: total - agreed }),
      ...(companions.length > 0 && { companions: companions.map((each) => ({ ...each, items: [...each.items] })) }),
      ...(faults && { faults }),
      ...(margin !== undefined && { margin }),
    };
    return { answer };
  },
});

export const addExtraFault = act({
  name: "addExtraFault",
  title: "Put an extra fault into the open draft, or into the next one",
  fields,
  answer: keptEstimate,
  decide: async (desk, said, on: On) => {
    const found = await foundIn(desk, said, on);
    if ("refused" in found) return found;
    const { job, latest, extra } = found;
    const { rateBook, ...input } = extra.revised;
    const { problems: _, ...made } = await priced(extra.revised);
    const { rateBookId, rateBookVersion } = latest;
    if (latest.issuedAt) return begun(desk, job, desk.newId(), { jobId: job.id, rateBookId, rateBookVersion, input, ...made });
    const { record, write } = estimates.changed(desk.db, latest, { input, ...made }, desk.at);
    return { answer: record, writes: [write] };
  },
});

/** Faults that the newest issued revision did not have. */
export function faultsSince(job: JobAsItStands, input: EstimateInput): FaultsFound | undefined {
  const before = job.current && job.revision(job.current.id);
  return before && findFaults(job.inputOf(before), input);
}

export const seenAs = ({ id, version }: Estimate): string => `${id}:${version}`;

/** What it comes on top of: the newest revision, its prices read as of today, since a new offer is made today. */
export function baseOf(job: JobAsItStands, latest: Estimate, now: Date): EstimateInput {
  const { book, input } = latest.issuedAt ? onceMore(job, latest) : { book: job.inputOf(latest).rateBook, input: latest.input };
  return { ...input, rateBook: book, asOf: today(now, job.settings.timeZone) };
}

async function foundIn(desk: Desk, said: Said, on: On) {
  const [job, shop] = await Promise.all([desk.job(on.job), shopRows(desk.db, (timeZone) => today(desk.now, timeZone))]);
  const latest = job?.latest;
  if (!job || !latest) return refused("not found", { detail: "There is no such job, or it has no estimate." });
  if (said.base !== undefined && said.base !== seenAs(latest)) return refused("version moved", { current: latest });
  const base = baseOf(job, latest, desk.now);
  const place = placeSaid(said, base);
  if (place && "refused" in place) return place;
  const map = place ? { ...base.map, assemblies: [...(base.map?.assemblies ?? []), place] } : base.map;
  const names = namesIn({ ...base, ...(map && { map }) }, shop.kinds);
  const wrong = namesWrong(names, said);
  if (wrong.length > 0) return refused("input refused", { errors: orPlace(wrong) });
  const [id, ...others] = freshIds(base, 1 + (said.also?.length ?? 0)) as [string, ...string[]];
  const { hazards, ...rest } = said;
  if (hazards && said.own === undefined) return wrongField("/hazards", "own work missing", NO_OWN_WORK);
  const item = itemSaid({ ...rest, ...(hazards && { hazards: hazards.join(";") }) }, id, names, base, shop.kinds);
  if (!("id" in item)) return refused("input refused", { errors: [item] });
  const also = (said.also ?? []).map((operation, at): WorkItem => {
    const reason = base.rateBook.companions?.find((rule) => rule.operation === operation)?.reason;
    return { id: others[at]!, operation, count: 1, certainty: { is: "planned" }, ...(reason !== undefined && { reason }) };
  });
  const input = withKind(base, shop, item);
  const open = [...(said.open ?? []), ...(place && said.placeOpen ? [place.id] : [])];
  const extra = priceExtra(input, { items: [item, ...also], ...(place && { assemblies: [place] }) }, open);
  return extra.ok
    ? { job, latest, item, extra: extra as ExtraFault & { ok: true } }
    : refused("input refused", {
        errors: extra.problems.map((problem) => ({
          ...faultOf(problem, input.items.length),
          ...(placeFault(problem.pointer, input) !== undefined && { pointer: placeFault(problem.pointer, input)! }),
        })),
      });
}

/** Their own ids, whatever revision they come into. */
function freshIds({ items }: EstimateInput, count: number): string[] {
  const taken = new Set(items.map(({ id }) => id));
  const ids: string[] = [];
  for (let next = items.length + 1; ids.length < count; next += 1) if (!taken.has(`extra${next}`)) ids.push(`extra${next}`);
  return ids;
}
