/** The pick list of one job: what is agreed to, what the log used up, and its share of shelf and orders among all open jobs. */
import type { PricedSet } from "../estimating/agreement/choices.js";
import type { IsoDate } from "../estimating/input.js";
import { claimsOf, stillWanted } from "../estimating/parts/jobParts.js";
import { type PickList, pickList } from "../estimating/parts/pickList.js";
import { agreedTo, answersOf } from "./agreements.js";
import { closedOn } from "./closed.js";
import type { Database } from "./database.js";
import { loggedOn, openJobs } from "./openNeeds.js";
import { onOrder } from "./orders.js";
import { pricedAgreement } from "./pricedSet.js";
import { stockOf } from "./stock.js";

export interface JobPickList extends PricedSet {
  readonly revision: number;
  /** A closed job wants nothing any more. */
  readonly closedOn?: IsoDate;
  readonly list: PickList;
}

/** Undefined while nothing is agreed. */
export async function jobPickList(db: Database, jobId: string): Promise<JobPickList | undefined> {
  const agreement = agreedTo(await answersOf(db, jobId));
  const priced = await pricedAgreement(db, agreement);
  if (!agreement || !priced) return undefined;
  const kinds = (priced.input.kinds ?? []).map(({ id }) => id);
  const [logged, open, stock, ordered, closed] = await Promise.all([
    loggedOn(db, jobId),
    openJobs(db),
    stockOf(db, kinds),
    onOrder(db),
    closedOn(db, jobId),
  ]);
  const needs = open.flatMap(({ id, currency, parts, logged: used }) =>
    parts.map(({ part, buys, takes }) => ({ job: id, currency, part, buys, pieces: stillWanted({ part, buys, takes }, used) })),
  );
  const claims = claimsOf(needs, { stock, onOrder: ordered })
    .flat()
    .filter(({ job }) => job === jobId);
  const list = pickList(priced.input, priced.sheet, logged, claims, stock);
  return { ...priced, revision: agreement.revision, list, ...(closed !== undefined && { closedOn: closed }) };
}
