/**
 * What jobs want of shelf and orders. Open needs against shelf, orders and offers are the shop's order list, as of a day; one job's share
 * of them is its pick list. Reads open jobs and the offers of their parts only.
 */
import type { PricedSet } from "../estimating/agreement/choices.js";
import type { IsoDate } from "../estimating/input.js";
import { type Claim, claimsOf, jobParts, type LoggedPieces, stillWanted } from "../estimating/parts/jobParts.js";
import { type OrderList, orderList } from "../estimating/parts/orderList.js";
import { type PickList, pickList } from "../estimating/parts/pickList.js";
import { batchOnce, type Database } from "../records/database.js";
import { newestRates } from "../records/exchangeRates.js";
import { jobNumber } from "../records/jobs.js";
import { asOffer, offersFor } from "../records/offers.js";
import {
  emptyNeeds,
  keepNeeds,
  loggedOnEach,
  loggedOnOpen,
  type Needs,
  openNeedRows,
  wantedByOpen,
} from "../records/openNeeds.js";
import { onOrderRows, piecesIn } from "../records/orders.js";
import { mergedInto, partKindsTable } from "../records/partKinds.js";
import { stockIn, stockOf, stockRows } from "../records/stock.js";
import { shopRateBook } from "./checked.js";
import { type JobAsItStands, jobAsItStands } from "./job.js";
import { newestOnes } from "./offer.js";

interface OpenJob extends Needs {
  readonly id: string;
  /** Such as J-2026-0001. */
  readonly number: string;
  readonly unit: string;
  readonly logged: LoggedPieces;
}

/** Who agreed first comes first. */
export const openJobs = async (db: Database): Promise<OpenJob[]> => (await openBusiness(db)).jobs;

const businessRows = batchOnce((db) => [
  emptyNeeds(db),
  openNeedRows(db),
  loggedOnOpen(db),
  stockRows(db, wantedByOpen(partKindsTable.id)),
  onOrderRows(db),
]);

/** Open jobs, the shelf as to what they want, and all that is on order: in one round trip, unless something was agreed since. */
async function openBusiness(db: Database) {
  const [empty, rows, log, shelf, ordered] = await businessRows(db, {});
  const filled = await fillNeeds(db, empty);
  const logged = loggedOnEach(log);
  const jobs = rows
    .flatMap(({ id, needs: kept, maker, model, ...named }) => {
      const needs = kept ?? filled.get(id);
      return needs
        ? [{ ...needs, id, number: jobNumber(named), unit: `${maker} ${model}`, logged: logged.get(id) ?? new Map() }]
        : [];
    })
    .sort((a, b) => compare(a.agreedAt, b.agreedAt) || compare(a.number, b.number));
  const kinds = [...filled.values()].flatMap(({ parts }) => parts.flatMap(({ part }) => part.kind ?? []));
  return { jobs, stock: new Map([...stockIn(shelf), ...(await stockOf(db, kinds))]), onOrder: piecesIn(ordered) };
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Kept where it can be. */
async function fillNeeds(db: Database, empty: Awaited<ReturnType<typeof emptyNeeds>>): Promise<ReadonlyMap<string, Needs>> {
  const filled = new Map<string, Needs>();
  for (const row of empty) {
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
    await keepNeeds(db, row, needs);
    if (needs) filled.set(row.job, needs);
  }
  return filled;
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
  const { jobs, ...supplies } = await openBusiness(db);
  return claimsOf(needsOf(jobs), supplies).flat();
}

interface ShopOrderList {
  readonly list: OrderList;
  /** Jobs by id, for the lines that serve them. */
  readonly jobs: ReadonlyMap<string, Pick<OpenJob, "number" | "unit">>;
}

/** By the rates in force that day. */
export async function shopOrderList(db: Database, asOf: IsoDate): Promise<ShopOrderList> {
  const [{ jobs, stock, onOrder }, rateBook] = await Promise.all([openBusiness(db), shopRateBook(db, asOf)]);
  const needs = needsOf(jobs);
  const kinds = [...new Set(needs.flatMap(({ part, pieces }) => (pieces > 0 ? (part.kind ?? []) : [])))];
  const [offers, rates] = await Promise.all([offersFor(db, kinds), newestRates(db)]);
  const pullRatePerHour = rateBook.labourClasses.find(({ id }) => id === rateBook.accessClass)?.ratePerHour ?? 0;
  return {
    list: orderList({
      ...{ asOf, needs, stock, onOrder, pullRatePerHour },
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
export async function jobPickList(db: Database, job: JobAsItStands): Promise<JobPickList | undefined> {
  const agreed = job.agreed();
  if (!agreed) return undefined;
  const { input, sheet, agreement } = agreed;
  const kinds = (input.kinds ?? []).map(({ id }) => id);
  const [{ jobs: open, onOrder }, stock, into] = await Promise.all([openBusiness(db), stockOf(db, kinds), mergedInto(db, kinds)]);
  const held = new Map([...stock, ...[...into].map(([from, to]) => [to, stock.get(from) ?? 0] as const)]);
  const own = claimsOf(needsOf(open), { stock: held, onOrder })
    .flat()
    .filter((claim) => claim.job === job.id);
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
