/** What to order for all open jobs together, by source: whole packs, minimums held, freight once per source. */
import type { CurrencyCode, ExchangeRate, IsoDate, Minor, Offer } from "../input.js";
import { landed } from "../money/landed.js";
import type { Line } from "../sheet.js";
import { wholePacks } from "./catalogue.js";
import { type Claim, claimsOf, type OpenNeed, type Supplies } from "./jobParts.js";
import type { FreightPaid } from "./lot.js";
import { type BuyingRules, buyFor, type Purchase, type Served } from "./orderOffers.js";

export interface OrderAsk extends Supplies, BuyingRules {
  /** The day the offers are read. */
  readonly asOf: IsoDate;
  /** The job that comes first is served first. */
  readonly needs: readonly OpenNeed[];
  /** Of the kinds needed. */
  readonly offers: readonly Offer[];
  /** What other currencies are reckoned at, one a currency for each that jobs are priced in; what is ordered stays in its own. */
  readonly exchange?: readonly (ExchangeRate & { readonly into: CurrencyCode })[];
}

export interface OrderLine {
  readonly part: NonNullable<Line["part"]>;
  readonly offer: Offer;
  /** Wanted; `packs` hold `pieces` + `spare`. */
  readonly pieces: number;
  readonly packs: number;
  readonly spare: number;
  /** packs x price. */
  readonly cost: Minor;
  readonly jobs: readonly Served[];
  /** P(enough good pieces), where some may turn out bad. */
  readonly chance?: number;
}

export interface SourceOrder {
  readonly source: string;
  readonly currency: CurrencyCode;
  readonly lines: readonly OrderLine[];
  /** Sum of the lines; freight is the highest that their offers ask. */
  readonly goods: Minor;
  readonly freight: Minor;
  readonly total: Minor;
  /** The slowest of its lines. */
  readonly leadDays: number;
}

/** Pieces without an offer that covers them. */
export interface Uncovered {
  readonly part: NonNullable<Line["part"]>;
  readonly pieces: number;
  readonly jobs: readonly Served[];
  readonly why: "counted by type" | "no offer" | "not enough offered" | "own words";
  /** Of a part in the shop's own words: where it is to come from, and for how much a piece. */
  readonly own?: { readonly source?: string; readonly cost: Minor; readonly currency: CurrencyCode };
}

/** Pieces that need not be ordered. */
interface Covered {
  readonly part: NonNullable<Line["part"]>;
  readonly fromStock: number;
  readonly onOrder: number;
  readonly jobs: readonly Served[];
}

/** How a source is named where its order is sent. */
export const sourceKey = ({ source, currency }: Pick<SourceOrder, "source" | "currency">): string => `${currency} ${source}`;

export interface OrderList {
  readonly asOf: IsoDate;
  readonly sources: readonly SourceOrder[];
  readonly uncovered: readonly Uncovered[];
  readonly covered: readonly Covered[];
  /** Sums of the sources, by currency. */
  readonly totals: readonly (Pick<SourceOrder, "currency" | "goods" | "freight" | "total"> & { readonly sources: number })[];
}

export function orderList(ask: OrderAsk): OrderList {
  const { asOf, needs, offers } = ask;
  const byKind = grouped(
    offers.filter(({ on }) => on <= asOf),
    ({ kind }) => kind,
  );
  const paid = new Map<CurrencyCode, FreightPaid>();
  const lines: OrderLine[] = [];
  const uncovered: Uncovered[] = [];
  const covered: Covered[] = [];
  for (const claims of claimsOf(needs, ask)) {
    covered.push(...coveredOf(claims));
    for (const some of byCurrency(claims)) {
      const { part, currency } = some[0]!;
      const offered = part.kind === undefined ? [] : (byKind.get(part.kind) ?? []);
      const exchange = ask.exchange?.filter(({ into }) => into === currency) ?? [];
      const mine = offered.flatMap((one) => landed(one, { currency, exchange }) ?? []);
      const freight = paid.get(currency) ?? new Map();
      paid.set(currency, freight);
      const purchases = mine.length === 0 ? [] : buyFor(some, mine, ask, freight);
      const asOffered = ({ offer, ...rest }: Purchase) => ({ ...rest, offer: offered.find(({ id }) => id === offer.id)! });
      lines.push(...purchases.map((purchase) => lineOf(part, asOffered(purchase))));
      uncovered.push(...uncoveredOf(some, purchases, mine.length > 0));
    }
  }
  const sources = bySource(lines);
  return { asOf, sources, uncovered, covered, totals: totalsOf(sources) };
}

const byCurrency = (claims: readonly Claim[]): Iterable<Claim[]> =>
  grouped(
    claims.filter(({ toGet }) => toGet > 0),
    ({ currency }) => currency,
  ).values();

function lineOf(part: OrderLine["part"], { offer, pieces, jobs, chance }: Purchase): OrderLine {
  const whole = wholePacks(offer, pieces);
  const packs = whole / offer.packSize;
  return {
    ...{ part, offer, pieces, packs, spare: whole - pieces, cost: packs * offer.price, jobs },
    ...(chance !== undefined && { chance }),
  };
}

/** The jobs that come last go without. */
function uncoveredOf(claims: readonly Claim[], purchases: readonly Purchase[], offered: boolean): Uncovered[] {
  const { part, own, currency } = claims[0]!;
  let short = sum(claims.map(({ toGet }) => toGet)) - sum(purchases.map(({ pieces }) => pieces));
  if (short <= 0) return [];
  const pieces = short;
  const jobs: Served[] = [];
  for (const { job, toGet } of [...claims].reverse()) {
    const lacks = Math.min(short, toGet);
    if (lacks > 0) jobs.unshift({ job, pieces: lacks });
    short -= lacks;
  }
  const why = part.kind === undefined ? "counted by type" : offered ? "not enough offered" : "no offer";
  return own ? [{ part, pieces, jobs, why: "own words", own: { ...own, currency } }] : [{ part, pieces, jobs, why }];
}

function coveredOf(claims: readonly Claim[]): Covered[] {
  const jobs = claims.map(({ job, fromStock, onOrder }) => ({ job, pieces: fromStock + onOrder }));
  const [fromStock, onOrder] = [sum(claims.map((one) => one.fromStock)), sum(claims.map((one) => one.onOrder))];
  if (fromStock + onOrder === 0) return [];
  return [{ part: claims[0]!.part, fromStock, onOrder, jobs: jobs.filter(({ pieces }) => pieces > 0) }];
}

function bySource(lines: readonly OrderLine[]): SourceOrder[] {
  const found = grouped(lines, ({ offer: { source, currency } }) => JSON.stringify([source, currency]));
  return [...found.values()]
    .map((all) => {
      const own = [...all].sort((a, b) => order(a.part.name, b.part.name) || order(a.offer.id, b.offer.id));
      const { source, currency } = own[0]!.offer;
      const goods = sum(own.map(({ cost }) => cost));
      const freight = Math.max(0, ...own.map(({ offer }) => offer.freight ?? 0));
      const leadDays = Math.max(...own.map(({ offer }) => offer.leadDays));
      return { source, currency, lines: own, goods, freight, total: goods + freight, leadDays };
    })
    .sort((a, b) => order(a.source, b.source) || order(a.currency, b.currency));
}

function totalsOf(sources: readonly SourceOrder[]): OrderList["totals"] {
  const currencies = [...new Set(sources.map(({ currency }) => currency))].sort();
  return currencies.map((currency) => {
    const own = sources.filter((one) => one.currency === currency);
    const [goods, freight] = [sum(own.map((one) => one.goods)), sum(own.map((one) => one.freight))];
    return { currency, sources: own.length, goods, freight, total: goods + freight };
  });
}

function grouped<T>(all: readonly T[], keyOf: (one: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const one of all) {
    const group = groups.get(keyOf(one));
    if (group) group.push(one);
    else groups.set(keyOf(one), [one]);
  }
  return groups;
}

const order = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
const sum = (numbers: readonly number[]): number => numbers.reduce((total, number) => total + number, 0);
