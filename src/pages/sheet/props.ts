import type { EstimateInput } from "../../estimating/input.js";
import type { Sheet } from "../../estimating/sheet.js";
import type { Tongue } from "../../wording/tongue.js";

export interface SheetProps {
  readonly sheet: Sheet;
  /** What the sheet was computed from: names behind its ids. */
  readonly input: EstimateInput;
  readonly tongue: Tongue;
}
