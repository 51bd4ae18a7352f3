import type { FastenerKind } from "../estimating/input.js";
import { counted, listed } from "./list.js";

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
