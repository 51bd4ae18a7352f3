/** The fixed sets of the contract, in the order a form offers them: types, schemas and forms all follow from these. */

export const ASSEMBLY_SORTS = [
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
] as const;

export const BOARD_SIZES = ["small", "medium", "large"] as const;
export const MOUNTINGS = ["on top", "behind another", "behind a panel with knobs"] as const;

export const FASTENER_KINDS = [
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
] as const;

export const HAZARDS = [
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
] as const;

/** What a unit runs on, where someone said. */
export const POWERS = ["mains", "low voltage"] as const;

export const OFFER_STATES = ["new", "new old stock", "used", "donor pull", "reproduction"] as const;

/** How sure a piece of work is, in the order it is asked for. */
export const CERTAINTIES = ["planned", "if found", "optional"] as const;
export const SCARCITIES = ["in stock", "to order", "scarce", "donor only"] as const;

/** Of an owner's estimate: one page, amounts by assembly and kind, or all lines. */
export const PAPER_DETAILS = ["letter", "by assembly", "every line"] as const;
