/**
 * Donor units: bought for what is in them. Each part that can still be pulled is an offer of state 'donor pull', limited by what is left,
 * so that estimates and order lists meet it as any other; pulling is goods in from the unit, and takes from it.
 */
import { z } from "zod";
import { timesOver } from "../estimating/money/rounding.js";
import { LIMITS } from "../estimating/problems.js";
import { type Donor, type DonorPart, type DonorValue, donors, offersIn } from "../records/donors.js";
import { type OfferValue, offers } from "../records/offers.js";
import { partKindNamed } from "../records/partKinds.js";
import { shopSettings } from "../records/settings.js";
import type { Write } from "../records/trail.js";
import { act, type Desk, refused } from "./act.js";
import { bringIn } from "./bringIn.js";
import { shopRateBook } from "./checked.js";
import type { Fault } from "./fault.js";
import { cost, day, decimal, hand, line, maybe, named, note, share, whole } from "./field.js";
import { logWork } from "./logWork.js";
import { offerFaults } from "./offer.js";
import { noSuchKind } from "./partKind.js";
import { adding, gone, heldBack, type Recorded, replacing, withdrawal, withdrawing } from "./record.js";
import { keptGoodsIn } from "./shapes/parts.js";
import { keptKeys } from "./shapes/resources.js";
import { today } from "./today.js";

const PIECES = { most: LIMITS.count };
const partKeys = {
  kind: named("Part"),
  pieces: whole("Can be pulled", { least: 0, ...PIECES }),
  pullMinutes: maybe(decimal("Minutes to pull one", { least: 0, most: LIMITS.minutes, decimals: 3 })),
  shareGood: maybe(share("Share good", { hint: "Pieces in a hundred, from 1 to 100", help: "scarce-parts#share-good" })),
};
const price = cost("Price of one", { currencyIn: "currency" });
const part = z
  .strictObject({
    ...partKeys,
    price: maybe(price).meta({ description: "Absent, and no share either: what the others leave of the cost, piece by piece" }),
    costShare: maybe(decimal("Share of the cost", { unit: "%", least: 0, most: 100, decimals: 4 })).meta({
      description: "Percent of the unit's cost that all pieces of this part bear, in place of a price",
    }),
  })
  .superRefine(({ price, costShare }, context) => {
    if (price !== undefined && costShare !== undefined)
      context.addIssue({ code: "custom", path: ["costShare"], params: { name: "price given twice" } });
  })
  .meta({
    id: "DonorPartSaid",
    description: "A part that can be pulled, and what it costs: by price, or by a share of the unit",
  });
type PartSaid = z.output<typeof part>;

export const donorFields = z.strictObject({
  maker: line("Maker"),
  model: line("Model"),
  serial: maybe(line("Serial")),
  boughtOn: day("Bought on"),
  currency: line("Currency", { most: 3 }).meta({ description: "ISO 4217, the rate book's", example: "GBP" }),
  cost: cost("Cost", { hint: "For the whole unit", currencyIn: "currency" }),
  notes: maybe(note("Notes")),
  parts: z.array(part).max(500),
});

export const donorName = ({ maker, model, serial }: Pick<Donor, "maker" | "model" | "serial">): string =>
  ["Donor", maker, model, serial].filter(Boolean).join(" ");

/** What each part costs a piece: as said, else its share of the cost, else, piece by piece, what the others leave of it. */
function priced(said: readonly PartSaid[], cost: number, before: readonly DonorPart[]): DonorPart[] {
  const known = said.map(({ kind, pieces, price, costShare }) => {
    if (price !== undefined || costShare === undefined) return price ?? before.find((each) => each.kind === kind)?.price;
    return pieces === 0 ? 0 : timesOver(cost, Math.round(costShare * 10_000), pieces * 1_000_000);
  });
  const taken = said.reduce((sum, { pieces }, at) => sum + pieces * (known[at] ?? 0), 0);
  const open = said.reduce((sum, { pieces }, at) => sum + (known[at] === undefined ? pieces : 0), 0);
  const each = open === 0 ? 0 : timesOver(Math.max(0, cost - taken), 1, open);
  return said.map(({ costShare: _, ...rest }, at) => ({ ...rest, price: known[at] ?? each }));
}

const offerOf = (donor: DonorValue, id: string, { kind, pieces, price, ...rest }: DonorPart): OfferValue => ({
  ...{ kind, source: donorName(donor), on: donor.boughtOn, price, currency: donor.currency, packSize: 1, available: pieces },
  ...{ leadDays: 0, state: "donor pull", donor: id },
  ...rest,
});

async function check({ db }: Pick<Desk, "db">, value: DonorValue): Promise<readonly Fault[]> {
  const book = await shopRateBook(db);
  const faults: Fault[] = [];
  for (const [at, each] of value.parts.entries()) {
    const under = `/parts/${at}`;
    const kind = await partKindNamed(db, each.kind);
    const twice = value.parts.findIndex((other) => other.kind === each.kind) < at;
    if (!kind) faults.push(await noSuchKind(db, each.kind, `${under}/kind`));
    else if (twice)
      faults.push({
        pointer: `${under}/kind`,
        name: "id repeated",
        detail: `${kind.name} stands in this unit twice; put the pieces in one row.`,
      });
    else
      for (const fault of offerFaults(offerOf(value, "new", each), kind, book))
        faults.push({ ...fault, pointer: FIELD_OF.get(fault.pointer) ?? `${under}${fault.pointer}` });
  }
  return faults;
}
const FIELD_OF = new Map([
  ["/currency", "/currency"],
  ["/on", "/boughtOn"],
]);

export const donor = {
  one: "donor unit",
  fields: donorFields,
  kept: donorFields
    .extend({
      ...keptKeys,
      parts: z.array(
        z.strictObject({ ...partKeys, price }).meta({ id: "DonorPart", description: "What is left of a part in it" }),
      ),
      withdrawal,
    })
    .meta({ id: "DonorRecord", description: "A unit bought for what is in it, and what can still be pulled" }),
  rows: donors,
  settled: async ({ db }, value, old) => {
    const said = [];
    for (const each of value.parts as readonly PartSaid[])
      said.push({ ...each, kind: (await partKindNamed(db, each.kind))?.id ?? each.kind });
    return { ...value, parts: priced(said, value.cost, old?.parts ?? []) };
  },
  check,
  /** What is not named any more is not to be had any more. */
  beside: async ({ db, at, newId }, record) => {
    const standing = await offersIn(db, [record.id]);
    const writes: Write[] = [];
    for (const each of record.parts) {
      const offer = offerOf(record, record.id, each);
      const known = standing.find(({ kind }) => kind === each.kind);
      const emptied = { pullMinutes: undefined, shareGood: undefined };
      writes.push((known ? offers.changed(db, known, { ...emptied, ...offer }, at) : offers.made(db, newId(), offer, at)).write);
    }
    const left = standing.filter(({ kind }) => !record.parts.some((each) => each.kind === kind));
    return [...writes, ...left.map((offer) => offers.changed(db, offer, { available: 0 }, at).write)];
  },
} satisfies Recorded<DonorValue, Donor>;

export const addDonor = adding(donor);
export const replaceDonor = replacing(donor);
export const withdrawDonor = withdrawing(donor, {
  beside: async ({ db, at }, { id }, told) =>
    (await offersIn(db, [id])).map((offer) => offers.changed(db, offer, { withdrawal: told }, at).write),
});

const WHO = "Who pulled it";

export const pullFromDonor = act({
  name: "pullFromDonor",
  title: "Pull parts from a donor unit",
  fields: z
    .strictObject({
      kind: named("Part"),
      pieces: whole("Pieces", { least: 1, ...PIECES }),
      pulledOn: maybe(day("Pulled on")).meta({ description: "Today when absent" }),
      tested: maybe(
        z.strictObject({
          good: maybe(whole("Tested good", { least: 0, ...PIECES })),
          bad: maybe(whole("Tested bad", { least: 0, ...PIECES })),
        }),
      ),
      job: maybe(line("Job", { most: 100 })).meta({
        description: "Used up at once on this job, for `item`; absent: onto the shelf",
      }),
      item: maybe(line("Work", { most: 100 })).meta({ description: "The work item of the job that uses them" }),
      by: hand(WHO),
    })
    .meta({ id: "Pull" }),
  answer: keptGoodsIn,
  decide: async (desk, { kind: wanted, pulledOn, job, item, ...rest }, { id }: { readonly id: string }) => {
    const unit = await donors.find(desk.db, id);
    const held = heldBack("donor unit", unit, "any") ?? gone("donor unit", unit);
    if (held || !unit) return { refused: held! };
    const kind = (await partKindNamed(desk.db, wanted))?.id;
    const part = unit.parts.find((each) => each.kind === kind);
    if (!part) {
      const detail = `${donorName(unit)} has no part '${wanted}' to pull; choose one of its list.`;
      return refused("input refused", { errors: [{ pointer: "/kind", name: "record unknown", detail }] });
    }
    if ((job === undefined) !== (item === undefined)) {
      const missing = job === undefined ? "job" : "item";
      const detail = "Parts used at once need the job and its work; give both, or neither and they go onto the shelf.";
      return refused("input refused", { errors: [{ pointer: `/${missing}`, name: "key missing", detail }] });
    }
    const day = pulledOn ?? today(desk.now, (await shopSettings(desk.db)).timeZone);
    const came = await bringIn.decide(
      desk,
      {
        ...{ ...rest, kind: part.kind, receivedOn: day, source: donorName(unit), state: "donor pull", currency: unit.currency },
        paid: part.price * rest.pieces,
      },
      {},
    );
    if ("refused" in came || job === undefined) return came;
    const used = await logWork.decide(
      desk,
      {
        ...(item !== undefined && { item }),
        ...{ partKind: part.kind, partCount: rest.pieces, paidPrice: part.price, partState: "donor pull", workedOn: day },
        partReason: `as the list of ${donorName(unit)} has it`,
        ...{ person: came.answer.by, beyond: true },
        note: `pulled from ${donorName(unit)}`,
      },
      { job },
    );
    if ("refused" in used)
      return {
        refused: {
          ...used.refused,
          ...(used.refused.errors && {
            errors: used.refused.errors.map((fault) => ({ ...fault, pointer: SAID_AT[fault.pointer] ?? fault.pointer })),
          }),
        },
      };
    return { ...came, writes: [...(came.writes ?? []), ...(used.writes ?? [])], ...(used.trail && { trail: used.trail }) };
  },
});
/** Keys of the work log by those of a pull. */
const SAID_AT: Readonly<Record<string, string>> = {
  "/partKind": "/kind",
  "/partCount": "/pieces",
  "/person": "/by",
  "/workedOn": "/pulledOn",
};
