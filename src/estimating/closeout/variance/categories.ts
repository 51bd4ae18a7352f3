/** What the money of a job is for. Every row of a close-out is in one category, and the categories sum to the total. */
import type { LineSort } from "../../sheet.js";

export const CLOSE_OUT_CATEGORIES = [
  "access",
  "labour",
  "billing steps",
  "parts",
  "risk",
  "fees",
  "allowances and charges",
  "not agreed",
] as const;
export type CloseOutCategory = (typeof CLOSE_OUT_CATEGORIES)[number];

/** 'billing steps': what the shop's step and least charge add to labour. 'risk': charged for what might turn out dearer. */
export const CATEGORY_OF: Readonly<Record<LineSort, CloseOutCategory>> = {
  access: "access",
  replacement: "labour",
  cleaning: "labour",
  alignment: "labour",
  inspection: "labour",
  "fault finding": "labour",
  test: "labour",
  soak: "labour",
  other: "labour",
  "donor pull": "labour",
  "labour rounding": "billing steps",
  "minimum charge": "billing steps",
  part: "parts",
  "scarcity margin": "risk",
  allowance: "risk",
  fee: "fees",
};
