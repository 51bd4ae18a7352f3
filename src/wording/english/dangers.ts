import type { Hazard } from "../../estimating/input.js";

const names: Readonly<Record<Hazard, string>> = {
  "mains and stored charge": "mains and stored charge",
  "valve high tension": "valve high tension",
  "lithium cells": "lithium cells",
  "leaking cells": "leaking cells",
  "lead solder": "lead solder",
  "solvent vapour": "solvent vapour",
  mercury: "mercury",
  asbestos: "asbestos",
  selenium: "selenium",
  "picture tube": "picture tube",
};

/** General knowledge of the trade, not a standard quoted. */
export const dangers = {
  names,
  atHome: (listed: string) =>
    `This unit may hold dangers inside: ${listed}. Some stay after it is unplugged. Do not open it, and do not switch it on until it ` +
    "has been repaired and tested. Follow local codes; leave mains and high-tension work to a qualified person.",
};
