import type { Source } from "../estimating/sheet.js";
import { day } from "./day.js";
import { boardsName } from "./line.js";
import { ruleText } from "./rule.js";
import type { Tongue } from "./tongue.js";

type Say = { readonly [K in Source["is"]]: (source: Extract<Source, { is: K }>, tongue: Tongue) => string };

const SAY: Say = {
  item: ({ id }) => `Work item ${id}.`,
  assembly: ({ name }) => `Assembly ${name}.`,
  boards: ({ size, mounting, count }) => `Counted: ${boardsName(size, mounting, count)}.`,
  operation: ({ name }) => `Operation ${name}.`,
  "rate book": ({ entry }) => `Rate book entry ${entry}.`,
  offer: ({ source, on }, { locale }) => `Offer from ${source} of ${day(on, locale)}.`,
  stock: () => "From the shop's shelf.",
  policy: ({ entry }) => `Decided for this estimate: ${entry}.`,
  rule: ({ rule }) => ruleText(rule),
};

/** One plain sentence saying where an amount comes from. */
export const sourceText = (source: Source, tongue: Tongue): string =>
  (SAY[source.is] as (source: Source, tongue: Tongue) => string)(source, tongue);
