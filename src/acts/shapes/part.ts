import { z } from "zod";
import { OFFER_STATES } from "../../estimating/lists.js";
import { amount, currency, ident, isoDate, line, maybe, minutes, percent, prose, scarcity } from "./primitives.js";

export const offerState = z.enum(OFFER_STATES).meta({ id: "OfferState" });

export const partKind = z
  .strictObject({
    id: ident,
    type: ident,
    name: line,
    value: maybe(line),
    ratedVolts: maybe(z.number()),
    tolerancePercent: maybe(percent),
    form: maybe(line),
    audioGrade: maybe(z.boolean()),
    leads: maybe(z.number()),
    scarcity: maybe(scarcity),
    stock: maybe(z.number()),
    notes: maybe(prose),
  })
  .meta({ id: "PartKind" });

export const seenGood = z
  .strictObject({ good: z.number(), bad: z.number() })
  .meta({ id: "SeenGood", description: "Whole pieces like these that came in and were tested: good ones and bad ones." });

export const offer = z
  .strictObject({
    id: ident,
    kind: ident,
    source: line,
    on: isoDate,
    currency,
    price: amount,
    packSize: z.number(),
    minimumPacks: maybe(z.number()),
    available: maybe(z.number()),
    leadDays: z.number(),
    state: offerState,
    shareGood: maybe(z.number()),
    seenGood: maybe(seenGood),
    freight: maybe(amount),
    dutyPercent: maybe(percent),
    importTaxPercent: maybe(percent),
    parcelFee: maybe(amount),
    pullMinutes: maybe(minutes),
  })
  .meta({ id: "Offer" });

export const exchangeRate = z
  .strictObject({
    currency,
    rate: z
      .string()
      .max(40)
      .meta({ description: "Units of the estimate's currency for one of it, as a decimal", example: "0.7915" }),
    on: isoDate,
    source: line,
  })
  .meta({ id: "ExchangeRate" });
