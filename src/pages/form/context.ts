/** What the form is read and priced against: plain JSON, the same on the server and in the browser. */
import type {
  CurrencyCode,
  EstimateInput,
  ExchangeRate,
  IsoDate,
  Offer,
  Paperwork,
  PartKind,
  RateBook,
} from "../../estimating/input.js";
import { decimalsOf } from "../../estimating/money/currency.js";
import { decimalMark, plainOf, shift, typed } from "../../wording/decimal.js";

export interface FormContext {
  readonly today: IsoDate;
  /** BCP 47. */
  readonly locale: string;
  readonly currency: CurrencyCode;
  readonly rateBook: RateBook;
  readonly kinds: readonly PartKind[];
  readonly offers: readonly Offer[];
  /** Rates the estimate stands on, and the newest the shop knows. */
  readonly exchange: { readonly kept: readonly ExchangeRate[]; readonly known: readonly ExchangeRate[] };
  /** Shop, paper and terms; the owner comes from the form. */
  readonly paperwork: Paperwork;
}

/** Of a catalogue of thousands, so many go into a page; the others are found while typing. */
const MOST_AT_HAND = 100;

/** Kinds that the form names, then those in stock, then those offered last; with their offers. */
export function atHand(context: FormContext, { kinds: named = [] }: Pick<EstimateInput, "kinds">): FormContext {
  if (context.kinds.length <= MOST_AT_HAND) return context;
  const last = new Map<string, IsoDate>();
  for (const { kind, on } of context.offers) if (on > (last.get(kind) ?? "")) last.set(kind, on);
  const asked = new Set(named.map(({ id }) => id));
  const rank = ({ id, stock = 0 }: PartKind) => `${asked.has(id) ? 2 : stock > 0 ? 1 : 0} ${last.get(id) ?? ""}`;
  const first = context.kinds
    .map((kind) => ({ kind, rank: rank(kind) }))
    .sort((a, b) => (a.rank < b.rank ? 1 : a.rank > b.rank ? -1 : 0));
  const near = new Set(first.slice(0, Math.max(MOST_AT_HAND, asked.size)).map(({ kind }) => kind.id));
  return {
    ...context,
    kinds: context.kinds.filter(({ id }) => near.has(id)),
    offers: context.offers.filter(({ kind }) => near.has(kind)),
  };
}

/** What a look into the catalogue answers while a part's name is typed. */
export type KindsFound = Pick<FormContext, "kinds" | "offers">;

export const decimalsIn = (context: FormContext): number => decimalsOf(context.currency) ?? 2;

/** A column of the count grid: `p:` and a part type, or `o:` and a cleaning operation. */
export interface Column {
  readonly id: string;
  readonly name: string;
  readonly group: string;
  /** Shown where it holds something, and not offered. */
  readonly retired: boolean;
}

/** Part types in the order of the rate book, by family, then its cleaning operations. */
export function columnsOf(book: RateBook): readonly Column[] {
  const parts = book.partTypes.map(({ id, name, family, retiredOn }) => ({
    ...{ id: `p:${id}`, name, group: family as string, retired: retiredOn !== undefined },
  }));
  const cleaning = book.operations.filter(({ sort }) => sort === "cleaning");
  return [
    ...parts,
    ...cleaning.map(({ id, name, retiredOn }) => ({ id: `o:${id}`, name, group: "cleaning", retired: retiredOn !== undefined })),
  ];
}

export type Pairs = readonly (readonly [string, string | undefined])[];

/** Writes figures as the shop's locale does. */
export interface Pen {
  readonly context: FormContext;
  readonly number: (value: number | undefined, places?: number) => string | undefined;
  readonly money: (amount: number | undefined) => string | undefined;
}

export function penFor(context: FormContext): Pen {
  const mark = decimalMark(context.locale);
  const number: Pen["number"] = (value, places = 0) =>
    value === undefined ? undefined : typed(shift(plainOf(value), places), mark);
  return { context, number, money: (amount) => number(amount, -decimalsIn(context)) };
}
