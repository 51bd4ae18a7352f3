import type { Line } from "../estimating/sheet.js";
import { english } from "./english/index.js";
import type { Spoken } from "./tongue.js";

/** What a line stands under. */
export function lineHeading({ sort, assembly }: Line, { words = english }: Spoken = {}): string {
  const { headings } = words.lines;
  switch (sort) {
    case "access":
      return headings.access;
    case "part":
      return headings.parts;
    case "scarcity margin":
    case "donor pull":
      return headings.hardToGet;
    case "labour rounding":
    case "minimum charge":
      return headings.billedTime;
    case "allowance":
      return headings.allowances;
    case "fee":
      return headings.fees;
    default:
      return assembly?.name ?? headings.wholeUnit;
  }
}
