/** Small forms read with the same readers as the intake form: what is wrong with a field, beside that field. */

import type { CurrencyCode, IsoDate, RateBook } from "../../estimating/input.js";
import { capital } from "../../wording/list.js";
import type { FormContext } from "../form/context.js";
import { draftFrom } from "../form/draft.js";
import { formProblemText } from "../form/problemText.js";
import type { Reading } from "../form/reading.js";

/** Where no parts are typed by name, the catalogue is not needed. */
export const plainContext = (
  today: IsoDate,
  { locale, currency }: { readonly locale: string; readonly currency: CurrencyCode },
  rateBook: RateBook,
): FormContext => ({ today, locale, currency, rateBook, kinds: [], offers: [], paperwork: {} });

const NO_DRAFT = draftFrom(new Map());

/** The first problem of each field. */
export function errorsIn({ problems, context }: Reading): Map<string, string> {
  const errors = new Map<string, string>();
  for (const problem of problems)
    if (!errors.has(problem.field)) errors.set(problem.field, capital(formProblemText(problem, NO_DRAFT, context)));
  return errors;
}
