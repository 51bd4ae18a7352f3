import type { Warning } from "../estimating/sheet.js";
import { english } from "./english/index.js";
import type { Figures, Tongue } from "./tongue.js";

/** One plain sentence: what was noticed and what to do. */
export const warningText = (warning: Warning, tongue: Tongue): string =>
  ((tongue.words ?? english).warnings[warning.is] as (warning: Warning, figures: Figures) => string)(warning, tongue);
