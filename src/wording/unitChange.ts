import type { EstimateInput } from "../estimating/input.js";
import { english } from "./english/index.js";
import type { Spoken } from "./tongue.js";

export type UnitDetail = keyof EstimateInput["unit"];

export const UNIT_DETAILS = Object.keys(english.unitDetails) as UnitDetail[];

/** A detail of the unit that was written otherwise before, for a list. */
export const unitDetailText = (detail: UnitDetail, { words = english }: Spoken = {}): string => words.unitDetails[detail];
