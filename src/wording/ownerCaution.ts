import type { Hazard } from "../estimating/input.js";
import { english } from "./english/index.js";
import { listed } from "./list.js";
import type { Spoken } from "./tongue.js";

/** What the owner should know about the unit at home; general knowledge of the trade, not a standard quoted. */
export const ownerCautionText = (hazards: readonly Hazard[], { words = english }: Spoken = {}): string =>
  words.dangers.atHome(
    listed(
      hazards.map((hazard) => words.dangers.names[hazard]),
      words.lists.and,
    ),
  );
