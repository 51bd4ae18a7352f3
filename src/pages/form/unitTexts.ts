/** What the form takes down of a unit as text and no more: how each is read, and what a person calls it. One more has its line here, and its place on the page. */
import type { Unit } from "../../estimating/input.js";

export const UNIT_TEXTS = {
  serial: { as: "line", label: "Serial number" },
  accessories: { as: "lines", label: "Accessories brought along" },
  condition: { as: "note", label: "Condition on arrival" },
  reported: { as: "note", label: "What was reported" },
  found: { as: "note", label: "What was found" },
} as const satisfies { readonly [Name in keyof Unit]?: { readonly as: "line" | "lines" | "note"; readonly label: string } };

export type UnitTexts = Pick<Unit, keyof typeof UNIT_TEXTS>;
export const UNIT_TEXT_NAMES = Object.keys(UNIT_TEXTS) as (keyof UnitTexts)[];
