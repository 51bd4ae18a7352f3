import type { ScarcityReason } from "../estimating/sheet.js";
import { english } from "./english/index.js";
import type { Figures, Tongue } from "./tongue.js";

/** Completes a sentence such as 'Scarce: ...'. */
export const scarcityText = (reason: ScarcityReason, tongue: Tongue): string =>
  ((tongue.words ?? english).scarcity.reasons[reason.is] as (reason: ScarcityReason, figures: Figures) => string)(reason, tongue);
