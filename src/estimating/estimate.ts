/** The engine's one door: an input in, a sheet out, in which every amount names what it came from. Same input, same bytes. */
import { check, tooLarge, withoutOffenders } from "./check/check.js";
import type { EstimateInput } from "./input.js";
import type { Problem } from "./problems.js";
import { type Ask, sheetOf } from "./sheet/sheetOf.js";
import type { Sheet } from "./sheet.js";

/**
 * Money in minor units, time in minutes (input.ts, sheet.ts). Never throws for an input of the right shape: what is wrong
 * comes back as named problems, with the sheet of the rest where only single entries are to blame. `ask.risk` adds what the shop
 * reads about the job's risk; no owner's sheet has it.
 */
export function estimate(input: EstimateInput, ask: Ask = {}): Outcome {
  const problems = check(input);
  if (problems.length === 0) return priced(input, ask);
  const rest = withoutOffenders(input, problems);
  const partial = rest && check(rest).length === 0 ? priced(rest, ask) : undefined;
  return { ok: false, problems, ...(partial?.ok && { partial: partial.sheet }) };
}

function priced(input: EstimateInput, ask: Ask): Outcome {
  const sheet: Sheet = sheetOf(input, ask);
  const problems: Problem[] = tooLarge(sheet);
  return problems.length === 0 ? { ok: true, sheet } : { ok: false, problems };
}

/** A sheet, or the named problems together with the sheet of what could still be computed without the offending items. */
export type Outcome =
  | { readonly ok: true; readonly sheet: Sheet }
  | { readonly ok: false; readonly problems: readonly Problem[]; readonly partial?: Sheet };
