/** What the form is read and priced against: plain JSON, the same on the server and in the browser. */
import type { CurrencyCode, ExchangeRate, IsoDate, Offer, Paperwork, PartKind, RateBook } from "../../estimating/input.js";
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
