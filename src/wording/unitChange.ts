import type { EstimateInput } from "../estimating/input.js";

export type UnitDetail = keyof EstimateInput["unit"];

const TEXT: Readonly<Record<UnitDetail, string>> = {
  maker: "the maker",
  model: "the model",
  serial: "the serial number",
  declaredValue: "the declared value",
  grade: "the grade of condition",
  accessories: "what came with the unit",
  condition: "the condition on arrival",
  reported: "the reported fault",
  found: "what was found",
  storedData: "the stored data",
  hazards: "the dangers inside",
};

export const UNIT_DETAILS = Object.keys(TEXT) as UnitDetail[];

/** A detail of the unit that was written otherwise before, for a list. */
export const unitDetailText = (detail: UnitDetail): string => TEXT[detail];
