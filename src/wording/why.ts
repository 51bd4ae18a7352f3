import type { Why } from "../estimating/sheet.js";
import { english } from "./english/index.js";
import type { Figures, Tongue } from "./tongue.js";

/** One plain sentence. */
export const whyText = (why: Why, tongue: Tongue): string =>
  ((tongue.words ?? english).why[why.rule] as (why: Why, figures: Figures) => string)(why, tongue);
