/** What holds an assembly and how long it takes, as far as the rate book can say. */
import { type Book, standardKey } from "../../estimating/book.js";
import type { Access } from "../../estimating/input.js";
import { accessTimes } from "../../estimating/labour/access.js";
import { fastenersText } from "../../wording/list.js";
import { duration } from "../../wording/time.js";

export function heldBy(access: Access): string {
  if (access.by === "fasteners") return fastenersText(access.fasteners.filter(({ count }) => count > 0)) || "nothing";
  if (access.by === "standard") return `by standard: ${access.size} board ${access.mounting}`;
  return "measured here";
}

/** Likely minutes off and on; undefined where the rate book has no figure. */
export function minutesText(access: Access, book: Book, locale: string): string | undefined {
  if (access.by === "standard" && !book.standards.has(standardKey(access))) return undefined;
  if (access.by === "fasteners" && access.fasteners.some(({ kind }) => !book.fasteners.has(kind))) return undefined;
  const { remove, refit } = accessTimes(access, book);
  return `${duration(remove.likely / 1000, locale)} off, ${duration(refit.likely / 1000, locale)} on`;
}
