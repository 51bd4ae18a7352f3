/** Letters that the typeface of the papers lacks, in which field, as a person reads it. */
import { listedShort } from "./list.js";
import { short } from "./named.js";

/** By the beginning of the JSON pointer into an estimate's input; the first that fits. */
const PLACES: readonly (readonly [start: string, name: string])[] = [
  ["/paperwork/owner/name", "Owner's name"],
  ["/paperwork/owner/address", "Owner's address"],
  ["/paperwork/owner", "Owner"],
  ["/paperwork/shop", "The shop's letterhead"],
  ["/paperwork/terms", "Terms"],
  ["/paperwork/footer", "Footer"],
  ["/paperwork/summary", "What is wrong, and what you will do"],
  ["/paperwork/photos", "Caption of a photo"],
  ["/paperwork/whyChanged", "Why work changed"],
  ["/paperwork/spellings", "A spelling for the paper"],
  ["/unit/maker", "Maker"],
  ["/unit/model", "Model"],
  ["/unit/serial", "Serial number"],
  ["/unit/accessories", "What came with it"],
  ["/unit/condition", "Condition on arrival"],
  ["/unit/reported", "Reported fault"],
  ["/unit/found", "What was found"],
  ["/unit/storedData", "Stored data"],
  ["/items", "A line of the work"],
  ["/map", "An assembly"],
  ["/kinds", "A part of the catalogue"],
  ["/rateBook", "The rate book"],
];

export const placeText = (pointer: string): string => PLACES.find(([start]) => pointer.startsWith(start))?.[1] ?? "A text";

/** Which field, which letters, and what to do. */
export const unprintableText = (pointer: string, text: string, characters: readonly string[]): string =>
  `${placeText(pointer)}: the papers have no letters for ${listedShort(characters)} in '${short(text)}'; spell it in Latin, Greek or Cyrillic letters for the paper.`;
