import type { Source } from "../../estimating/sheet.js";
import { day } from "../day.js";
import type { Figures } from "../tongue.js";

/** Boards and rules have words of their own. */
export type SourceTexts = {
  readonly [K in Exclude<Source["is"], "boards" | "rule">]: (source: Extract<Source, { is: K }>, figures: Figures) => string;
};

const texts: SourceTexts = {
  item: ({ id }) => `Work item ${id}.`,
  assembly: ({ name }) => `Assembly ${name}.`,
  operation: ({ name }) => `Operation ${name}.`,
  "rate book": ({ entry }) => `Rate book entry ${entry}.`,
  offer: ({ source, on }, { locale }) => `Offer from ${source} of ${day(on, locale)}.`,
  stock: () => "From the shop's shelf.",
  policy: ({ entry }) => `Decided for this estimate: ${entry}.`,
};

export const sources = { texts, counted: (boards: string) => `Counted: ${boards}.` };
