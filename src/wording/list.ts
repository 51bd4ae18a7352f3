/** Names and counts in a row. */
import type { FastenerKind } from "../estimating/input.js";

/** 'a', 'a and b', 'a, b and c'. */
export function listed(names: readonly string[], last = "and"): string {
  if (names.length < 2) return names[0] ?? "";
  return `${names.slice(0, -1).join(", ")} ${last} ${names.at(-1)}`;
}

/** The first dozen, and how many more. */
export function listedShort(names: readonly string[], most = 12, { and, more } = { and: "and", more: "more" }): string {
  if (names.length <= most) return listed(names, and);
  return `${names.slice(0, most).join(", ")} ${and} ${names.length - most} ${more}`;
}

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** '1 board', '3 boards'. */
export const counted = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;

const MANY: Readonly<Record<FastenerKind, string>> = {
  screw: "screws",
  nut: "nuts",
  "push-on knob": "push-on knobs",
  "set-screw knob": "set-screw knobs",
  "keyed connector": "keyed connectors",
  "unkeyed connector": "unkeyed connectors, to be marked",
  ribbon: "ribbons",
  "board-to-board header": "board-to-board headers",
  clip: "clips",
  "soldered wire": "soldered wires",
  glue: "glue joints",
  standoff: "standoffs",
};
const ONE: Readonly<Partial<Record<FastenerKind, string>>> = {
  "unkeyed connector": "unkeyed connector, to be marked",
  glue: "glue joint",
};

/** '4 screws, 2 clips and 1 ribbon'. */
export const fastenersText = (fasteners: readonly { readonly kind: FastenerKind; readonly count: number }[]): string =>
  listed(fasteners.map(({ kind, count }) => counted(count, ONE[kind] ?? kind, MANY[kind])));
