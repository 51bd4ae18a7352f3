/** What is said of parts to get, on pages and in lists. */
import type { Uncovered } from "../estimating/parts/orderList.js";

export const UNCOVERED_TEXT: Readonly<Record<Uncovered["why"], string>> = {
  "counted by type": "counted by type only: take it from the drawers, or name the part in the estimate",
  "no offer": "no offer on record",
  "not enough offered": "more than is offered",
};
