/** What a profile asks of a document, and what keeps an estimate from being issued under it. Nothing here changes a figure. */
import { addDays } from "../day.js";
import type { EstimateInput, IsoDate, OfferState } from "../input.js";
import type { Sheet } from "../sheet.js";
import type { AgreementProfile, DocumentField } from "./profile.js";
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

type Look = (input: EstimateInput, sheet: Sheet) => string | boolean | undefined;

const written = (texts: readonly string[] | undefined): boolean => (texts ?? []).some((text) => text.trim() !== "");
/** On every sheet, and every document prints it. */
const always: Look = () => true;

const LOOK: Readonly<Record<DocumentField, Look>> = {
  "shop name": ({ paperwork }) => paperwork?.shop?.name,
  "shop address": ({ paperwork }) => written(paperwork?.shop?.address),
  "shop phone": ({ paperwork }) => paperwork?.shop?.phone,
  "shop e-mail": ({ paperwork }) => paperwork?.shop?.email,
  "shop registration": ({ paperwork }) => paperwork?.shop?.registration,
  "owner name": ({ paperwork }) => paperwork?.owner?.name,
  "owner address": ({ paperwork }) => written(paperwork?.owner?.address),
  date: ({ paperwork }) => paperwork?.date,
  "maker and model": ({ unit }) => unit.maker.trim() !== "" && unit.model.trim() !== "",
  serial: ({ unit }) => unit.serial,
  "reported fault": ({ unit }) => unit.reported,
  "work described": ({ items }) => items.some(({ count }) => count > 0),
  total: always,
  /** A ceiling below the total is no highest price. */
  "highest price": (_, { ceiling, totals }) => ceiling.amount >= totals.total,
  validity: always,
  "days to complete": always,
  "price of diagnosis": always,
  "price of teardown and reassembly": always,
  /** The owner was asked; an empty answer says that the unit holds nothing. */
  "stored data notice": ({ unit }) => unit.storedData !== undefined,
  /** Printed with the profile's notices. */
  "used parts notice": always,
};

/** The fields a profile requires and the document would not carry. */
export function missingFields(profile: AgreementProfile, input: EstimateInput, sheet: Sheet): DocumentField[] {
  return profile.requires.filter((field) => !filled(LOOK[field](input, sheet)));
}

const filled = (value: string | boolean | undefined): boolean =>
  typeof value === "string" ? value.trim() !== "" : value === true;

interface ForbiddenCall {
  readonly word: string;
  readonly sentence: string;
  /** JSON pointer (RFC 6901) to the text in the input. */
  readonly pointer: string;
}

const AMOUNT = /\b(estimat\w*|quot\w*|total\w*|amount\w*|price\w*|cost\w*|sum|figure\w*|bill)\b/i;

/**
 * Sentences of the shop that call the estimated amount by a word its profile forbids, such as 'minimum' in California
 * (16 CCR 2722). 'The minimum charge is one hour' speaks of a charge and may stand; 'this estimate is a minimum' may not.
 */
export function forbiddenCalls({ neverCalled }: AgreementProfile, input: EstimateInput): ForbiddenCall[] {
  if (neverCalled.length === 0) return [];
  return shopTexts(input).flatMap(([pointer, text]) =>
    sentencesOf(text).flatMap((sentence) =>
      neverCalled
        .filter((word) => AMOUNT.test(sentence) && wholeWord(word).test(sentence))
        .map((word) => ({ word, sentence, pointer })),
    ),
  );
}

const wholeWord = (word: string): RegExp => new RegExp(`\\b${word}s?\\b`, "i");

const sentencesOf = (text: string): string[] =>
  text
    .split(/(?<=[.!?;])\s+|\n+/)
    .map((sentence) => sentence.trim())
    .filter(Boolean);

/** What the shop writes on the document in its own words; what the owner reported is the owner's. */
function shopTexts({ unit, items, policy, paperwork }: EstimateInput): [pointer: string, text: string][] {
  const texts: [string, string | undefined][] = [
    ["/unit/found", unit.found],
    ["/unit/condition", unit.condition],
    ["/policy/discount/reason", policy?.discount?.reason],
    ...items.map(({ reason }, at): [string, string | undefined] => [`/items/${at}/reason`, reason]),
    ...(paperwork?.terms ?? []).map((term, at): [string, string] => [`/paperwork/terms/${at}`, term]),
    ...Object.entries(paperwork?.whyChanged ?? {}).map(([id, why]): [string, string] => [
      `/paperwork/whyChanged/${id.replaceAll("~", "~0").replaceAll("/", "~1")}`,
      why,
    ]),
  ];
  return texts.filter((entry): entry is [string, string] => entry[1] !== undefined);
}

const NOT_NEW: ReadonlySet<OfferState> = new Set(["used", "donor pull"]);

/** Parts that are not new, for the notice that some profiles ask for: names, each once, in print order. */
export function usedParts({ offers = [] }: EstimateInput, { lines }: Sheet): string[] {
  const notNew = new Set(offers.filter(({ state }) => NOT_NEW.has(state)).map(({ id }) => id));
  const names = lines.flatMap(({ part, from }) =>
    part && from.some((source) => source.is === "offer" && notNew.has(source.id)) ? [part.name] : [],
  );
  return [...new Set(names)];
}
