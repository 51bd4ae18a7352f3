import type { Minutes } from "../../input.js";
import type { Adjustment, Line } from "../../sheet.js";
import type { CloseOutCategory } from "./categories.js";
import type { Figures } from "./figures.js";

interface Quantity<Unit> {
  readonly quoted: Unit;
  readonly agreed: Unit;
  readonly allowed: Unit;
  readonly actual: Unit;
}

/** The finest part of a close-out: one line of the sheets; of a part, each work item's share of it. */
export interface Row extends Figures {
  readonly id: string;
  readonly category: CloseOutCategory;
  /** What it is, as the last sheet that has it prints it; its money and minutes are that sheet's. */
  readonly is: { readonly line: Line } | { readonly adjustment: Adjustment };
  /** Work item it belongs to. */
  readonly item?: string;
  /** Absent: the unit as a whole. */
  readonly assembly?: { readonly id: string; readonly name: string };
  readonly minutes?: Quantity<Minutes>;
  readonly pieces?: Quantity<number>;
  /** false: allowed for, but no time was logged on it, so its favourable variance may only mean that. */
  readonly logged?: boolean;
}
