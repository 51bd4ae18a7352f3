import type { Detail } from "../estimating/sheet.js";
import { english } from "./english/index.js";
import type { Spoken } from "./tongue.js";

/** Completes 'Access is reckoned ...' and 'Work is counted ...'. */
export const detailText = (detail: Detail, { words = english }: Spoken = {}): string => words.detail[detail];
