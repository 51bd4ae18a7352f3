import type { CurrencyCode } from "../estimating/input.js";

/** How a person reads figures: a BCP 47 locale and the ISO 4217 currency of the estimate. */
export interface Tongue {
  readonly locale: string;
  readonly currency: CurrencyCode;
}
