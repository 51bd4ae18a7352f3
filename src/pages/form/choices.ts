/** The fixed sets a form offers, in the order it offers them. */
import type { AssemblySort, BoardSize, FastenerKind, Hazard, Mounting, Scarcity } from "../../estimating/input.js";

export const SORTS: readonly AssemblySort[] = [
  "board",
  "panel",
  "supply",
  "keybed",
  "transport",
  "chassis",
  "shelf",
  "cover",
  "contacts",
  "speaker",
  "other",
];

export const BOARD_SIZES: readonly BoardSize[] = ["small", "medium", "large"];
export const MOUNTINGS: readonly Mounting[] = ["on top", "behind another", "behind a panel with knobs"];

export const FASTENER_KINDS: readonly FastenerKind[] = [
  "screw",
  "nut",
  "push-on knob",
  "set-screw knob",
  "keyed connector",
  "unkeyed connector",
  "ribbon",
  "board-to-board header",
  "clip",
  "soldered wire",
  "glue",
  "standoff",
];

export const HAZARDS: readonly Hazard[] = [
  "mains and stored charge",
  "valve high tension",
  "lithium cells",
  "leaking cells",
  "lead solder",
  "solvent vapour",
  "mercury",
  "asbestos",
  "selenium",
  "picture tube",
];

export const SCARCITIES: readonly Scarcity[] = ["in stock", "to order", "scarce", "donor only"];
export const CERTAINTIES = ["planned", "if found", "optional"] as const;
