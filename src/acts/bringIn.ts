/** Parts that came in: the shelf rises, and the price paid becomes a dated offer that tells how many of the source's pieces proved good. */
import { z } from "zod";
import type { Offer } from "../estimating/input.js";
import { OFFER_STATES } from "../estimating/lists.js";
import { timesOver } from "../estimating/money/rounding.js";
import type { Database } from "../records/database.js";
import { donorOffer, takenFrom } from "../records/donors.js";
import { exchangeRates, newestRates } from "../records/exchangeRates.js";
import { addGoodsIn, addTest, earlierOffer, type GoodsInRecord, type GoodsInValue, tellSeen } from "../records/goodsIn.js";
import { addOffer, asOffer } from "../records/offers.js";
import { findOrder, findOrderLine } from "../records/orders.js";
import { partKindNamed } from "../records/partKinds.js";
import { shopSettings } from "../records/settings.js";
import { putInStock } from "../records/stock.js";
import { counted } from "../wording/list.js";
import { act, refused, wrongField } from "./act.js";
import { faultsIn, shopRateBook } from "./checked.js";
import { choice, cost, day, exact, hand, line, maybe, named, whole } from "./field.js";
import { handOf } from "./hand.js";
import { LEAD_DAYS, newestOnes, offerFields, PACK_SIZE } from "./offer.js";
import { noSuchKind } from "./partKind.js";
import { keptGoodsIn } from "./shapes/parts.js";

const MOST_PIECES = 1_000_000;
const WHO = "Who took it in";

const fields = z
  .strictObject({
    receivedOn: day("Came in on"),
    kind: named("Part"),
    source: line("Source"),
    state: choice("State", OFFER_STATES),
    pieces: whole("Pieces", { least: 1, most: MOST_PIECES }),
    currency: maybe(
      line("Currency", { most: 3, hint: "Empty: the order's, or the shop's" }).meta({
        description: "ISO 4217; absent: the order's, or the shop's",
      }),
    ),
    rate: maybe(
      exact("Exchange rate", { hint: "Of another currency; empty: the shop's newest" }).meta({
        description: "Units of the shop's currency for one of `currency`; kept as the shop's rate of that day",
      }),
    ),
    paid: cost("Price paid", { hint: "For all the pieces, freight apart; 0 where it was free", currencyIn: "currency" }),
    freight: maybe(cost("Freight paid", { currencyIn: "currency" })),
    ...offerFields.pick({ dutyPercent: true, importTaxPercent: true, parcelFee: true }).shape,
    packSize: maybe(whole("Pieces in a pack", { ...PACK_SIZE, hint: "Empty: as this source offered the part before" })),
    leadDays: maybe(whole("Days from order to arrival", { ...LEAD_DAYS, hint: "Empty: as before" })),
    orderLineId: maybe(line("Line of an order", { most: 100 })),
    note: maybe(line("Note")),
    by: hand(WHO),
    tested: maybe(
      z.strictObject({
        good: maybe(whole("Tested good", { least: 0, most: MOST_PIECES })),
        bad: maybe(whole("Tested bad", { least: 0, most: MOST_PIECES })),
      }),
    ),
  })
  .meta({ id: "GoodsIn" });

export const bringIn = act({
  name: "addGoodsIn",
  title: "Book in parts",
  fields,
  answer: keptGoodsIn,
  decide: async (desk, value) => {
    const { db, at } = desk;
    const who = handOf(desk, value.by, WHO);
    if ("refused" in who) return who;
    const kind = await partKindNamed(db, value.kind);
    if (!kind) return refused("input refused", { errors: [await noSuchKind(db, value.kind, "/kind")] });
    const orderLine = value.orderLineId === undefined ? undefined : await findOrderLine(db, value.orderLineId);
    if (value.orderLineId !== undefined && !orderLine)
      return wrongField(
        "/orderLineId",
        "record unknown",
        `There is no order line '${value.orderLineId}'; choose one that is on record.`,
      );
    if (orderLine && orderLine.kind !== kind.id)
      return wrongField(
        "/kind",
        "record unknown",
        `That line of the order is for ${orderLine.name}; choose that part, or no order.`,
      );
    const tested = { good: value.tested?.good ?? 0, bad: value.tested?.bad ?? 0 };
    if (tested.good + tested.bad > value.pieces)
      return wrongField("/tested/good", "number out of range", tooManyTested(value.pieces));
    const currency =
      value.currency ?? (orderLine && (await findOrder(db, orderLine.orderId)))?.currency ?? (await shopSettings(db)).currency;

    const { tested: _, packSize, leadDays, rate, dutyPercent, importTaxPercent, parcelFee, ...rest } = value;
    const goods: GoodsInValue = { ...rest, kind: kind.id, currency, by: who.by };
    const standing = goods.state === "donor pull" ? await donorOffer(db, goods) : undefined;
    const left = standing?.available ?? 0;
    if (standing && left < goods.pieces)
      return wrongField(
        "/pieces",
        "number out of range",
        `Pieces: ${left === 0 ? "none" : `only ${left}`} can still be pulled of ${goods.source}; put its list right first if there are more.`,
      );
    const priced = standing
      ? { offer: asOffer(standing), again: true }
      : await offerOf(db, goods, { packSize, leadDays, id: desk.newId(), abroad: { dutyPercent, importTaxPercent, parcelFee } });
    if ("refused" in priced) return priced;
    const { offer, again } = priced;
    const book = await shopRateBook(db);
    const paidAt = rate === undefined ? [] : [{ currency, rate, on: value.receivedOn, source: `Goods in from ${value.source}` }];
    const abroad = currency !== book.currency;
    const exchange = newestOnes([...paidAt, ...(abroad ? await newestRates(db) : [])]);
    const rates = paidAt.flatMap((one) => faultsIn({ exchange: [one], asOf: one.on }, book, "/exchange/0"));
    const wrong = [...rates, ...faultsIn({ kinds: [kind], offers: [offer], exchange }, book, "/offers/0")];
    if (wrong.length > 0)
      return refused("input refused", { errors: wrong.map((fault) => ({ ...fault, pointer: FIELD_OF[fault.pointer] ?? "" })) });

    const id = desk.newId();
    const record: GoodsInRecord = { ...goods, id, at, name: kind.name, offerId: offer.id, tested };
    const { source, state, pieces, by } = goods;
    return {
      answer: record,
      writes: [
        ...(again ? [] : [addOffer(db, offer, at)]),
        ...(standing ? takenFrom(db, standing, pieces, at) : []),
        ...paidAt.map((one) => exchangeRates.made(db, desk.newId(), { ...one, into: book.currency }, at).write),
        addGoodsIn(db, record),
        putInStock(db, { id: `in-${id}`, kind: kind.id, pieces, goodsInId: id, by, at }),
        ...(tested.good + tested.bad > 0 ? [addTest(db, { id: `${id}-1`, goodsInId: id, at, by, ...tested })] : []),
        tellSeen(db, offer.id, { source, state }, at),
      ],
    };
  },
});

export const tooManyTested = (left: number): string =>
  `Tested: only ${counted(left, "piece")} can still be tested; good and bad together are more.`;

/** What an offer says of its import; what is not said stays as this source's was before. */
const FROM_ABROAD = ["dutyPercent", "importTaxPercent", "parcelFee"] as const;

/** Where the offer's own keys are typed. */
const FIELD_OF: Readonly<Record<string, string>> = {
  "/price": "/paid",
  "/on": "/receivedOn",
  ...Object.fromEntries(
    ["kind", "source", "state", "currency", "rate", "packSize", "leadDays", "freight", ...FROM_ABROAD].map((key) => [
      `/${key}`,
      `/${key}`,
    ]),
  ),
};

/** What such parts were offered at before, at the price paid now; the same offer of that day where there is one (`again`). */
async function offerOf(
  db: Database,
  value: GoodsInValue,
  said: {
    readonly packSize: number | undefined;
    readonly leadDays: number | undefined;
    readonly id: string;
    readonly abroad: { readonly [K in (typeof FROM_ABROAD)[number]]: number | undefined };
  },
): Promise<{ readonly offer: Offer; readonly again: boolean } | ReturnType<typeof wrongField>> {
  const { kind, source, state, currency, receivedOn: on, pieces, paid } = value;
  const earlier = await earlierOffer(db, value);
  const packSize = said.packSize ?? earlier?.packSize;
  const leadDays = said.leadDays ?? earlier?.leadDays;
  const unsaid = (field: string, label: string) =>
    wrongField(field, "key missing", `${label}: this source has not offered the part before, so say how many.`);
  if (packSize === undefined) return unsaid("/packSize", "Pieces in a pack");
  if (leadDays === undefined) return unsaid("/leadDays", "Days from order to arrival");
  const price = timesOver(paid, packSize, pieces);
  const { on: _, available: __, seenGood: ___, freight: paidBefore, ...kept } = earlier ?? ({} as Partial<Offer>);
  const freight = value.freight ?? paidBefore;
  const abroad: Partial<Offer> = Object.fromEntries(Object.entries(said.abroad).filter(([, given]) => given !== undefined));
  const offer: Offer = {
    ...kept,
    ...abroad,
    ...{ id: said.id, kind, source, on, currency, price, packSize, leadDays, state },
    ...(freight !== undefined && { freight }),
  };
  const same =
    earlier?.on === on && (["price", "packSize", "freight", ...FROM_ABROAD] as const).every((key) => earlier[key] === offer[key]);
  return same ? { offer: earlier, again: true } : { offer, again: false };
}
