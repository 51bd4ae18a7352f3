/**
 * A part that stands in the catalogue twice: all that names the one names the other from now on. Pieces on the shelf, offers, orders,
 * what came in and open drafts go over; what was issued keeps its words.
 */
import { eq, sql } from "drizzle-orm";
import { z } from "zod";
import type { PartKind, RateBook } from "../estimating/input.js";
import { readMarking } from "../estimating/parts/marking.js";
import { draftsNaming } from "../records/catalogue.js";
import type { Database } from "../records/database.js";
import { type BareInput, estimates, priced } from "../records/estimates.js";
import { goodsInTable } from "../records/goodsIn.js";
import type { Keys } from "../records/noun.js";
import { offersTable } from "../records/offers.js";
import { openNeedsTable } from "../records/openNeeds.js";
import { orderLinesTable } from "../records/orders.js";
import { type PartKindValue, partKindNamed, partKinds, partKindsTable } from "../records/partKinds.js";
import { countedRow, lastMovements } from "../records/stock.js";
import type { Write } from "../records/trail.js";
import { counted } from "../wording/list.js";
import { act, refused, wrongField } from "./act.js";
import { shopRateBook } from "./checked.js";
import type { Fault } from "./fault.js";
import { hand, named } from "./field.js";
import { handOf } from "./hand.js";
import { noSuchKind, partKind } from "./partKind.js";
import { gone, heldBack } from "./record.js";

const WHO = "Who merges them";

export const mergePartKind = act({
  name: "mergePartKind",
  title: "Merge a part into another that is the same",
  fields: z
    .strictObject({
      into: named("Part to keep").meta({ description: "Id or name of the part that stays", example: "el-10u-63" }),
      by: hand(WHO),
    })
    .meta({ id: "MergePartKind" }),
  answer: partKind.kept,
  decide: async (desk, { into, by }, { id }: { readonly id: string }) => {
    const { db, at } = desk;
    const from = await partKinds.find(db, id);
    const held = heldBack("part kind", from, "any") ?? gone("part kind", from);
    if (held || !from) return { refused: held! };
    const hand = handOf(desk, by, WHO);
    if ("refused" in hand) return hand;
    // What stands there twice may have one name.
    const kept = await partKindNamed(db, into, into === id ? undefined : id);
    if (!kept) return refused("input refused", { errors: [await noSuchKind(db, into, "/into", id)] });
    if (kept.id === id)
      return wrongField("/into", "record unknown", "Part to keep: this is the part itself; choose the other one.");
    const errors = differences(from, kept, await shopRateBook(db));
    if (errors.length > 0) return refused("input refused", { errors });

    const told = { at, by: hand.by, reason: `the same as ${kept.name}`, into: kept.id };
    const { record, write } = partKinds.changed(db, from, { withdrawal: told } as Keys<PartKindValue>, at);
    const moved = await movedOver(db, from, kept, { ids: [desk.newId(), desk.newId()], at, by: hand.by });
    return {
      answer: { ...record, stock: 0 },
      writes: [write, ...moved, ...(await draftsRenamed(db, id, kept, at))],
    };
  },
});

/** What two parts cannot differ in and be one. */
function differences(from: PartKind, kept: PartKind, { partTypes }: RateBook): readonly Fault[] {
  const typeOf = ({ type }: PartKind) => partTypes.find(({ id }) => id === type);
  const fault = (name: string, what: string, a: string, b: string): Fault[] =>
    a === b
      ? []
      : [
          {
            ...{ pointer: "/into", name },
            detail: `Part to keep: ${kept.name} has ${what} ${b} and ${from.name} ${a}, so they are two parts; put the wrong one right first, or keep both.`,
          },
        ];
  const leads = (kind: PartKind) => kind.leads ?? typeOf(kind)?.leads;
  const value = (kind: PartKind) => {
    const read = kind.value === undefined ? undefined : readMarking(kind.value, typeOf(kind)?.family as never);
    return read ? `${read.of} ${read.value}` : (kind.value?.trim().toLowerCase() ?? "");
  };
  const both = <T>(a: T | undefined, b: T | undefined) => a !== undefined && b !== undefined;
  return [
    ...fault("part types differ", "the type", typeOf(from)?.name ?? from.type, typeOf(kept)?.name ?? kept.type),
    ...(both(leads(from), leads(kept)) ? fault("leads differ", "a number of leads of", `${leads(from)}`, `${leads(kept)}`) : []),
    ...(both(from.value, kept.value) && value(from) !== value(kept)
      ? fault("values differ", "the value", from.value!, kept.value!)
      : []),
    ...(both(from.ratedVolts, kept.ratedVolts)
      ? fault("ratings differ", "rated volts of", `${from.ratedVolts}`, `${kept.ratedVolts}`)
      : []),
  ];
}

/** Rows that name the one, called by the other; those that were merged into it before go along. */
async function movedOver(
  db: Database,
  from: PartKind,
  kept: PartKind,
  { ids, at, by }: { readonly ids: readonly [string, string]; readonly at: string; readonly by: string },
): Promise<readonly Write[]> {
  const kind = kept.id;
  const { standing, number } = await lastMovements(db, [from.id, kind]);
  const pieces = standing.get(from.id) ?? 0;
  const move = { why: "counted" as const, beyond: 0, at, by };
  const said = counted(pieces, "piece");
  return [
    ...(pieces === 0
      ? []
      : [
          countedRow(db, {
            ...{ ...move, id: ids[0], kind: from.id, number: number + 1, change: -pieces, standsAt: 0 },
            reason: `${said} lie with ${kept.name}, the same part`,
          }),
          countedRow(db, {
            ...{ ...move, id: ids[1], kind, number: number + 2, change: pieces, standsAt: (standing.get(kind) ?? 0) + pieces },
            reason: `${said} of ${from.name}, the same part`,
          }),
        ]),
    db.update(offersTable).set({ kind, version: sql`version + 1`, updatedAt: at }).where(eq(offersTable.kind, from.id)),
    db.update(orderLinesTable).set({ kind }).where(eq(orderLinesTable.kind, from.id)),
    db.update(goodsInTable).set({ kind }).where(eq(goodsInTable.kind, from.id)),
    db
      .update(partKindsTable)
      .set({ withdrawal: sql`json_set(withdrawal, '$.into', ${kind})` as never, version: sql`version + 1`, updatedAt: at })
      .where(sql`withdrawal ->> '$.into' = ${from.id}`),
    // Filled anew by who reads them next.
    db
      .update(openNeedsTable)
      .set({ needs: null })
      .where(sql`exists (select 1 from json_each(needs, '$.parts') where value ->> '$.part.kind' = ${from.id})`),
  ];
}

async function draftsRenamed(db: Database, from: string, kept: PartKind, at: string): Promise<readonly Write[]> {
  const writes: Write[] = [];
  for (const id of await draftsNaming(db, from)) {
    const draft = (await estimates.find(db, id))!;
    const { rateBook, ...bare } = await estimates.inputOf(db, draft);
    const input = renamed(bare, from, kept);
    const { problems: _, ...made } = await priced({ ...input, rateBook });
    writes.push(estimates.changed(db, draft, { input, ...made }, at).write);
  }
  return writes;
}

function renamed(input: BareInput, from: string, kept: PartKind): BareInput {
  const { items, kinds = [], offers = [] } = input;
  const stock = (kinds.find(({ id }) => id === from)?.stock ?? 0) + (kept.stock ?? 0);
  return {
    ...input,
    items: items.map((item) =>
      item.part && "kind" in item.part && item.part.kind === from ? { ...item, part: { kind: kept.id } } : item,
    ),
    kinds: [...kinds.filter(({ id }) => id !== from && id !== kept.id), { ...kept, ...(stock > 0 && { stock }) }],
    offers: offers.map((offer) => (offer.kind === from ? { ...offer, kind: kept.id } : offer)),
  };
}
