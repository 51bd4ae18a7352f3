/** How long an assembly's own removal and refit take, and which figures of the rate book say so. */
import { type Book, known, standardKey } from "../book.js";
import type { Access } from "../input.js";
import { inMilli, NO_TIME, plus, type Times, times } from "../labour/times.js";

export interface AccessTimes {
  readonly remove: Times;
  readonly refit: Times;
  /** JSON pointers into the rate book. */
  readonly entries: readonly string[];
}

export function accessTimes(access: Access, book: Book): AccessTimes {
  if (access.by === "measured") return { remove: inMilli(access.remove), refit: inMilli(access.refit), entries: [] };
  if (access.by === "standard") {
    const { is, at } = known(book.standards, standardKey(access));
    return { remove: inMilli(is.remove), refit: inMilli(is.refit), entries: [`/accessStandards/${at}`] };
  }
  let [remove, refit] = [NO_TIME, NO_TIME];
  const entries = new Set<string>();
  for (const { kind, count } of access.fasteners) {
    const { is, at } = known(book.fasteners, kind);
    remove = plus(remove, times(inMilli(is.remove), count));
    refit = plus(refit, times(inMilli(is.refit), count));
    entries.add(`/fasteners/${at}`);
  }
  return { remove, refit, entries: [...entries] };
}
