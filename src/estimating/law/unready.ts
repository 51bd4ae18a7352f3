/** What keeps an estimate from being issued under its profile. Nothing here changes a figure. */
import { addDays } from "../day.js";
import type { EstimateInput, IsoDate } from "../input.js";
import type { Sheet } from "../sheet.js";
import { forbiddenCalls } from "./forbiddenCalls.js";
import { missingFields } from "./missingFields.js";
import type { DocumentField } from "./profile.js";
import { profileOf } from "./profiles.js";

export type Unready =
  | { readonly is: "field missing"; readonly field: DocumentField }
  /** `pointer` is the JSON pointer to the text in the input. */
  | { readonly is: "word not allowed"; readonly word: string; readonly sentence: string; readonly pointer: string }
  /** It would bind for fewer days from its date than the profile wants; prices read as of `asOfFrom` or later put it right. */
  | {
      readonly is: "validity too short";
      readonly until: IsoDate;
      readonly atLeast: IsoDate;
      readonly days: number;
      readonly asOfFrom: IsoDate;
    };

/** Empty: it may be issued. The sheet is the input's. Before issuing, the paperwork must be that which goes out, with its date. */
export function unready(input: EstimateInput, sheet: Sheet): Unready[] {
  const profile = profileOf(input.policy?.profile);
  const { validityDays } = profile;
  const date = input.paperwork?.date;
  const atLeast = date !== undefined && validityDays !== undefined ? addDays(date, validityDays) : undefined;
  return [
    ...missingFields(profile, input, sheet).map((field) => ({ is: "field missing", field }) as const),
    ...forbiddenCalls(profile, input).map((call) => ({ is: "word not allowed", ...call }) as const),
    ...(date !== undefined && validityDays !== undefined && atLeast !== undefined && sheet.validUntil < atLeast
      ? [{ is: "validity too short", until: sheet.validUntil, atLeast, days: validityDays, asOfFrom: date } as const]
      : []),
  ];
}
