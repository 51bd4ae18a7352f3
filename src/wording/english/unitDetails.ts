import type { EstimateInput } from "../../estimating/input.js";

export const unitDetails: Readonly<Record<keyof EstimateInput["unit"], string>> = {
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
