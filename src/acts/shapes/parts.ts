/** What the API says of parts to get: pick lists, the order list, orders, goods in, stock. */
import { z } from "zod";
import { offer, offerState, partKind } from "./part.js";
import { currency, ident, label, line, maybe } from "./primitives.js";
import { warning } from "./sheet.js";

const MOST = 1_000_000_000_000;
const COUNT = 1_000_000;
const text = z.string();
const whole = z.int();
const instant = z.string().meta({ format: "date-time" });
const money = z.int().min(0).max(MOST).meta({ description: "Integer minor units of the currency" });
const pieces = z.int().min(1).max(COUNT);
const count = z.int().min(0).max(COUNT);

const part = z.strictObject({ type: text, kind: maybe(text), name: text });
const served = z.array(z.strictObject({ job: text, pieces: whole })).meta({ description: "Jobs, and with how many pieces" });
const chance = maybe(z.number()).meta({ description: "P(enough good pieces), where some may turn out bad" });

const orderedLine = z.strictObject({
  part,
  offer,
  pieces: whole,
  packs: whole,
  spare: whole,
  cost: whole,
  jobs: served,
  chance,
});
const sums = { goods: whole, freight: whole, total: whole };

export const orderListAnswer = z
  .strictObject({
    asOf: z.iso.date(),
    sources: z.array(z.strictObject({ source: text, currency, lines: z.array(orderedLine), ...sums, leadDays: whole })),
    uncovered: z.array(
      z.strictObject({
        part,
        pieces: whole,
        jobs: served,
        why: z.enum(["counted by type", "no offer", "not enough offered", "own words"]),
        own: maybe(z.strictObject({ source: maybe(text), cost: whole, currency: text })),
      }),
    ),
    covered: z.array(z.strictObject({ part, fromStock: whole, onOrder: whole, jobs: served })),
    totals: z.array(z.strictObject({ currency, sources: whole, ...sums })),
    jobs: z.array(z.strictObject({ id: text, number: text, unit: text })),
  })
  .meta({ id: "OrderList" });

export const pickListAnswer = z
  .strictObject({
    revision: whole,
    closedOn: maybe(z.iso.date()),
    parts: z.array(
      z.strictObject({
        part,
        kind: maybe(partKind),
        needed: whole,
        used: whole,
        wanted: whole,
        ifFound: whole,
        stock: maybe(whole),
        fromStock: whole,
        onOrder: whole,
        toGet: whole,
        from: z.array(z.strictObject({ source: text, state: offerState, pieces: whole })),
        remarks: z.array(warning),
      }),
    ),
    assemblies: z.array(
      z.strictObject({
        id: maybe(text),
        name: text,
        takes: z.array(z.strictObject({ item: text, part, count: whole, used: whole, ifFound: maybe(z.literal(true)) })),
      }),
    ),
  })
  .meta({ id: "PickList" });

export const keptOrder = z
  .strictObject({
    id: text,
    at: instant,
    by: text,
    source: text,
    orderedOn: text,
    currency,
    ...sums,
    note: maybe(text),
    lines: z.array(
      z.strictObject({
        id: text,
        orderId: text,
        kind: text,
        name: text,
        offerId: text,
        packs: whole,
        packSize: whole,
        price: whole,
        pieces: whole,
        jobs: served,
        came: whole,
        ended: z.boolean(),
      }),
    ),
    ending: maybe(z.strictObject({ at: instant, by: text, reason: text })),
  })
  .meta({ id: "OrderRecord" });

const tested = z.strictObject({ good: count, bad: count });
const goodsKeys = {
  receivedOn: z.iso.date(),
  kind: ident,
  source: label,
  state: offerState,
  pieces,
  currency: z.string().regex(/^[A-Z]{3}$/),
  paid: money.meta({ description: "For all the pieces, freight apart" }),
  freight: maybe(money),
  orderLineId: maybe(ident),
  note: maybe(line),
  by: label,
};

export const keptGoodsIn = z
  .strictObject({ ...goodsKeys, id: text, at: instant, name: text, offerId: text, tested })
  .meta({ id: "GoodsInRecord" });

export const shareBelief = z
  .strictObject({
    source: maybe(text).meta({ description: "Absent: all sources of this state" }),
    state: offerState,
    pieces: whole,
    good: whole,
    book: z.number(),
    share: z.number(),
    low: z.number(),
    high: z.number(),
  })
  .meta({ id: "ShareBelief", description: "What share of the pieces is believed to be good, and by how many tested" });

export const shelved = z
  .strictObject({ id: text, type: text, name: text, value: maybe(text), stock: whole })
  .meta({ id: "Shelved" });
export const movement = z
  .strictObject({
    number: whole,
    id: text,
    kind: text,
    why: z.enum(["goods in", "used on job", "put back", "counted"]),
    change: whole,
    beyond: whole.meta({ description: "Pieces used that the count did not have" }),
    standsAt: whole,
    reason: maybe(text),
    jobId: maybe(text),
    goodsInId: maybe(text),
    at: instant,
    by: text,
  })
  .meta({ id: "StockMovement" });
