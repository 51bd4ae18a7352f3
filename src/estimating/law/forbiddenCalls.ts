/**
 * Sentences of the shop that call the estimated amount by a word its profile forbids, such as 'minimum' in California
 * (16 CCR 2722). 'The minimum charge is one hour' speaks of a charge and may stand; 'this estimate is a minimum' may not.
 */
import type { EstimateInput } from "../input.js";
import type { AgreementProfile } from "./profile.js";

export interface ForbiddenCall {
  readonly word: string;
  readonly sentence: string;
  /** JSON pointer (RFC 6901) to the text in the input. */
  readonly pointer: string;
}

const AMOUNT = /\b(estimat\w*|quot\w*|total\w*|amount\w*|price\w*|cost\w*|sum|figure\w*|bill)\b/i;

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
