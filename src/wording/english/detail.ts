import type { Detail } from "../../estimating/sheet.js";

export const detail: Readonly<Record<Detail, string>> = {
  counts: "by plain counts and the rate book's standards, with no assembly named",
  grid: "assembly by assembly, by the rate book's standards",
  map: "assembly by assembly, by the teardown map of the model",
  mixed: "partly assembly by assembly, partly by plain counts or standards",
  none: "as nothing, for there is none",
};
