import type { Cause } from "../../estimating/agreement/causes.js";

export const causes: Readonly<Record<Cause, string>> = {
  prices: "prices and rates that changed",
  condition: "the condition of the unit",
  access: "what has to be opened",
  dropped: "work dropped",
  found: "possible work that proved necessary",
  choice: "options taken up or left",
  corrected: "work and counts corrected",
  "extra faults": "faults found since",
  terms: "discount, fees and terms",
};
