import type { Hazard } from "../estimating/input.js";
import { listed } from "./list.js";

/** What the owner should know about the unit at home; general knowledge of the trade, not a standard quoted. */
export const ownerCautionText = (hazards: readonly Hazard[]): string =>
  `This unit may hold dangers inside: ${listed(hazards)}. Some stay after it is unplugged. Do not open it, and do not switch it on until it ` +
  "has been repaired and tested. Follow local codes; leave mains and high-tension work to a qualified person.";
