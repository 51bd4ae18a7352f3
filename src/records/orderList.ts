/** The shop's order list: open needs against shelf, orders and offers, as of a day. Reads open jobs and the offers of their parts only. */
import type { IsoDate, RateBook } from "../estimating/input.js";
import { stillWanted } from "../estimating/parts/jobParts.js";
import { type OrderList, orderList } from "../estimating/parts/orderList.js";
import type { Database } from "./database.js";
import { asOffer, offersFor } from "./offers.js";
import { type OpenJob, openJobs } from "./openNeeds.js";
import { onOrder } from "./orders.js";
import { stockOf } from "./stock.js";

export interface ShopOrderList {
  readonly list: OrderList;
  /** Jobs by id, for the lines that serve them. */
  readonly jobs: ReadonlyMap<string, Pick<OpenJob, "number" | "unit">>;
}

export async function shopOrderList(db: Database, asOf: IsoDate, rateBook: RateBook): Promise<ShopOrderList> {
  const jobs = await openJobs(db);
  const needs = jobs.flatMap(({ id, currency, parts, logged }) =>
    parts.map((part) => ({ job: id, currency, part: part.part, buys: part.buys, pieces: stillWanted(part, logged) })),
  );
  const kinds = [...new Set(needs.flatMap(({ part, pieces }) => (pieces > 0 ? (part.kind ?? []) : [])))];
  const [stock, ordered, offers] = await Promise.all([stockOf(db, kinds), onOrder(db), offersFor(db, kinds)]);
  const pullRatePerHour = rateBook.labourClasses.find(({ id }) => id === rateBook.accessClass)?.ratePerHour ?? 0;
  return {
    list: orderList({
      ...{ asOf, needs, stock, onOrder: ordered, pullRatePerHour },
      offers: offers.map(asOffer),
      scarcity: rateBook.scarcity,
    }),
    jobs: new Map(jobs.map(({ id, number, unit }) => [id, { number, unit }])),
  };
}
