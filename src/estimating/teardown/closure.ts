/** Everything that must be off when these are: what they sit behind and what they are joined to, and so on. Each once. */
import type { MapReading } from "./map.js";

export function closure({ behind, groups, groupOf }: MapReading, starts: Iterable<number>): Set<number> {
  const opened = new Set<number>(starts);
  for (const place of opened) {
    for (const other of groups[groupOf[place]!]!) opened.add(other);
    for (const other of behind[place]!) opened.add(other);
  }
  return opened;
}
