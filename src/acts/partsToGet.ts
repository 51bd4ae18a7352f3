/**
 * What jobs want of shelf and orders. Open needs against shelf, orders and offers are the shop's order list, as of a day; one job's share
 * of them is its pick list. Reads open jobs and the offers of their parts only.
 */
import type { PricedSet } from "../estimating/agreement/choices.js";
import type { IsoDate } from "../estimating/input.js";
import { type Claim, claimsOf, jobParts, type LoggedPieces, stillWanted } from "../estimating/parts/jobParts.js";
import { type OrderList, orderList } from "../estimating/parts/orderList.js";
import { type PickList, pickList } from "../estimating/parts/pickList.js";
import type { Database } from "../records/database.js";
import { newestRates } from "../records/exchangeRates.js";
import { jobNumber } from "../records/jobs.js";
import { asOffer, offersFor } from "../records/offers.js";
import { emptyNeeds, keepNeeds, loggedOnEach, type Needs, openNeedRows } from "../records/openNeeds.js";
import { onOrder } from "../records/orders.js";
import { mergedInto } from "../records/partKinds.js";
import { stockOf } from "../records/stock.js";
import { shopRateBook } from "./checked.js";
import { jobAsItStands } from "./job.js";
import { newestOnes } from "./offer.js";

interface OpenJob extends Needs {
  readonly id: string;
  /** Such as J-2026-0001. */
  readonly number: string;
  readonly unit: string;
  readonly logged: LoggedPieces;
}

/** Who agreed first comes first. */
export async function openJobs(db: Database): Promise<OpenJob[]> {
  const unkept = await fillNeeds(db);
  const rows = await openNeedRows(db);
  const logged = await loggedOnEach(
    db,
    rows.map(({ id }) => id),
  );
  return rows
    .flatMap(({ id, needs: kept, maker, model, ...named }) => {
      const needs = kept ?? unkept.get(id);
      return needs
        ? [{ ...needs, id, number: jobNumber(named), unit: `${maker} ${model}`, logged: logged.get(id) ?? new Map() }]
        : [];
    })
    .sort((a, b) => compare(a.agreedAt, b.agreedAt) || compare(a.number, b.number));
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** What could not be kept. */
async function fillNeeds(db: Database): Promise<ReadonlyMap<string, Needs>> {
  const unkept = new Map<string, Needs>();
  for (const row of await emptyNeeds(db)) {
    const agreed = (await jobAsItStands(db, row.job))?.agreed();
    const parts = agreed ? jobParts(agreed.input, agreed.sheet) : [];
    const into = await mergedInto(
      db,
      parts.flatMap(({ part }) => part.kind ?? []),
    );
    const needs = agreed && {
      ...{ currency: agreed.sheet.currency, agreedAt: agreed.agreement.at },
      parts: parts.map((need) => ({ ...need, part: calledBy(need.part, into) })),
    };
    if (!(await keepNeeds(db, row, needs)) && needs) unkept.set(row.job, needs);
  }
  return unkept;
}

const calledBy = <P extends { readonly kind?: string }>(part: P, names: ReadonlyMap<string, string>): P =>
  part.kind !== undefined && names.has(part.kind) ? { ...part, kind: names.get(part.kind)! } : part;

const needsOf = (jobs: readonly OpenJob[]) =>
  jobs.flatMap(({ id, currency, parts, logged }) =>
    parts.map(({ part, buys, own, ...rest }) => ({
      ...{ job: id, currency, part, buys, pieces: stillWanted({ part, buys, ...rest }, logged) },
      ...(own && { own }),
    })),
  );

/** Each open job's share of shelf and orders, and what is to get for it. */
export async function openClaims(db: Database): Promise<Claim[]> {
  const needs = needsOf(await openJobs(db));
  const kinds = [...new Set(needs.flatMap(({ part, pieces }) => (pieces > 0 ? (part.kind ?? []) : [])))];
  const [stock, ordered] = [await stockOf(db, kinds), await onOrder(db)];
  return claimsOf(needs, { stock, onOrder: ordered }).flat();
}

interface ShopOrderList {
  readonly list: OrderList;
  /** Jobs by id, for the lines that serve them. */
  readonly jobs: ReadonlyMap<string, Pick<OpenJob, "number" | "unit">>;
}

/** By the rates in force that day. */
export async function shopOrderList(db: Database, asOf: IsoDate): Promise<ShopOrderList> {
  const [jobs, rateBook] = [await openJobs(db), await shopRateBook(db, asOf)];
  const needs = needsOf(jobs);
  const kinds = [...new Set(needs.flatMap(({ part, pieces }) => (pieces > 0 ? (part.kind ?? []) : [])))];
  const [stock, ordered, offers, rates] = await Promise.all([
    stockOf(db, kinds),
    onOrder(db),
    offersFor(db, kinds),
    newestRates(db),
  ]);
  const pullRatePerHour = rateBook.labourClasses.find(({ id }) => id === rateBook.accessClass)?.ratePerHour ?? 0;
  return {
    list: orderList({
      ...{ asOf, needs, stock, onOrder: ordered, pullRatePerHour },
      offers: offers.map(asOffer),
      exchange: newestOnes(rates),
      scarcity: rateBook.scarcity,
    }),
    jobs: new Map(jobs.map(({ id, number, unit }) => [id, { number, unit }])),
  };
}

interface JobPickList extends PricedSet {
  readonly revision: number;
  /** A closed job wants nothing any more. */
  readonly closedOn?: IsoDate;
  readonly list: PickList;
}

/** What is agreed to, what the log used up, and the job's share among all open jobs. Undefined while nothing is agreed. */
export async function jobPickList(db: Database, jobId: string): Promise<JobPickList | undefined> {
  const job = await jobAsItStands(db, jobId);
  const agreed = job?.agreed();
  if (!job || !agreed) return undefined;
  const { input, sheet, agreement } = agreed;
  const kinds = (input.kinds ?? []).map(({ id }) => id);
  const [open, stock, ordered] = [await openJobs(db), await stockOf(db, kinds), await onOrder(db)];
  const into = await mergedInto(db, kinds);
  const held = new Map([...stock, ...[...into].map(([from, to]) => [to, stock.get(from) ?? 0] as const)]);
  const own = claimsOf(needsOf(open), { stock: held, onOrder: ordered })
    .flat()
    .filter((claim) => claim.job === jobId);
  // What was agreed keeps its words, so a part that was merged since is known by both names.
  const before = new Map([...into].map(([from, to]) => [to, from]));
  const claims = [...own, ...own.map((claim) => ({ ...claim, part: calledBy(claim.part, before) }))];
  const used = new Map<string, number>();
  for (const { item, partKind, partType, partCount = 1 } of job.entries)
    if (item !== undefined && (partKind ?? partType) !== undefined) used.set(item, (used.get(item) ?? 0) + partCount);
  return {
    ...{ input, sheet, revision: agreement.revision, list: pickList(input, sheet, used, claims, stock) },
    ...(job.closedOn !== undefined && { closedOn: job.closedOn }),
  };
}
