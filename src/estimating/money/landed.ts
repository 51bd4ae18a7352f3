/**
 * What an offer costs once it is here, in the estimate's currency, a rounding a step: the price of a pack at the shop's rate; duty on
 * that; import tax on price and duty. Freight at the same rate, with the fee for the parcel, stays beside it: both are paid once per
 * source, so neither carries duty or import tax.
 */
import type { EstimateInput, ExchangeRate, Offer } from "../input.js";
import type { Source } from "../sheet.js";
import { exchanged } from "./exchange.js";
import { percentOf } from "./scales.js";

/** An offer in the estimate's currency, with the steps to its price and to its freight where there are any. */
export interface LandedOffer extends Offer {
  readonly steps?: { readonly price: readonly Source[]; readonly freight: readonly Source[] };
}

export type Landing = Pick<EstimateInput, "currency" | "exchange">;

export const rateFor = ({ exchange = [] }: Landing, currency: string): ExchangeRate | undefined =>
  exchange.find((one) => one.currency === currency);

/**
 * The rates that offers need on a day, one a currency in the order of their codes: those an estimate stands on already, then the newest
 * known that is not ahead of the day. Undefined: none.
 */
export function ratesTaken(
  { asOf, currency, offers = [] }: Pick<EstimateInput, "asOf" | "currency" | "offers">,
  known: readonly ExchangeRate[],
  kept: readonly ExchangeRate[] = [],
): readonly ExchangeRate[] | undefined {
  const abroad = new Set(offers.flatMap((offer) => (offer.currency === currency ? [] : [offer.currency])));
  const newest = (code: string) =>
    known
      .filter((one) => one.currency === code && one.on <= asOf)
      .reduce<ExchangeRate | undefined>((last, one) => (last && last.on >= one.on ? last : one), undefined);
  const taken = [...abroad].sort().flatMap((code) => kept.find((one) => one.currency === code) ?? newest(code) ?? []);
  return taken.length > 0 ? taken : undefined;
}

/** Undefined where no rate is given for its currency. An offer that nothing is added to stays as it is. */
export function landed(offer: Offer, context: Landing): LandedOffer | undefined {
  const { currency } = context;
  const { price, freight, packSize, dutyPercent = 0, importTaxPercent = 0, parcelFee = 0 } = offer;
  const abroad = offer.currency !== currency;
  if (!abroad && dutyPercent === 0 && importTaxPercent === 0 && parcelFee === 0) return offer;
  const rate = abroad ? rateFor(context, offer.currency) : undefined;
  if (abroad && !rate) return undefined;
  const into = (what: "pack" | "freight", paid: number): readonly Source[] =>
    rate ? [{ is: "exchange", what, price: paid, ...rate, amount: exchanged(paid, rate.currency, currency, rate.rate) }] : [];
  const pack = into("pack", price);
  const bought = amountOf(pack, price);
  const duty = percentOf(bought, dutyPercent);
  const tax = percentOf(bought + duty, importTaxPercent);
  const carriage = freight === undefined ? [] : into("freight", freight);
  const paid = amountOf(carriage, freight ?? 0) + parcelFee;
  return {
    ...offer,
    ...{ currency, price: bought + duty + tax },
    ...((freight !== undefined || parcelFee > 0) && { freight: paid }),
    steps: {
      price: [
        ...pack,
        ...(duty > 0 ? [{ is: "duty", percent: dutyPercent, base: bought, amount: duty } as const] : []),
        ...(tax > 0 ? [{ is: "import tax", percent: importTaxPercent, base: bought + duty, amount: tax } as const] : []),
        ...(duty + tax > 0 ? [{ is: "landed", packSize, amount: bought + duty + tax } as const] : []),
      ],
      freight: [...carriage, ...(parcelFee > 0 ? [{ is: "parcel fee", amount: parcelFee } as const] : [])],
    },
  };
}

const amountOf = ([step]: readonly Source[], otherwise: number): number => (step?.is === "exchange" ? step.amount : otherwise);
