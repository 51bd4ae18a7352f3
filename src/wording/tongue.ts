import type { CurrencyCode } from "../estimating/input.js";
import type { Words } from "./english/index.js";

/** How a person reads figures: a BCP 47 locale and the ISO 4217 currency of the estimate. */
export interface Figures {
  readonly locale: string;
  readonly currency: CurrencyCode;
}

/** The words of a language; English ones when absent, as on every page of the shop. */
export interface Spoken {
  readonly words?: Words;
}

export interface Tongue extends Figures, Spoken {}
