import type { Mark } from "../estimating/agreement/rowChanges.js";
import { markText } from "./change.js";
import type { Spoken } from "./tongue.js";

const SIGN: Readonly<Record<Mark, string>> = { added: "+", dropped: "\u2212", corrected: "\u2260", "price changed": "\u00b1" };

/** '+ Added': told without colour, and without reading. */
export const signedMark = (mark: Mark, spoken?: Spoken): string => `${SIGN[mark]}\u00a0${markText(mark, spoken)}`;
