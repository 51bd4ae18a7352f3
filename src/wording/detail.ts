import type { Detail } from "../estimating/sheet.js";

const TEXT: Readonly<Record<Detail, string>> = {
  counts: "by plain counts and the rate book's standards; no assembly is named",
  grid: "by named assembly, with access times by standard or measured",
  map: "by the teardown map of this model: its fasteners and what is behind what",
  mixed: "partly by the teardown map and partly by standards",
  none: "nothing counted",
};

/** Completes a sentence such as 'Access is reckoned ...'. */
export const detailText = (detail: Detail): string => TEXT[detail];
