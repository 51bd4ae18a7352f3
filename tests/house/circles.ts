/** Files that import one another in a circle: each is listed with all that it reaches and that reach it. */
import type { Import } from "./source.js";

/** Strongly connected, of more than one or importing itself (Tarjan 1972); files in order, one text a circle. */
export function circles(imports: readonly Import[]): string[] {
  const next = new Map<string, string[]>();
  for (const { file, of } of imports) next.set(file, [...(next.get(file) ?? []), of]);
  const seen = new Map<string, { at: number; low: number; open: boolean }>();
  const open: string[] = [];
  const found: string[] = [];
  const visit = (file: string): { at: number; low: number; open: boolean } => {
    const mine = { at: seen.size, low: seen.size, open: true };
    seen.set(file, mine);
    open.push(file);
    for (const of of next.get(file) ?? []) {
      const other = seen.get(of);
      if (!other) mine.low = Math.min(mine.low, visit(of).low);
      else if (other.open) mine.low = Math.min(mine.low, other.at);
    }
    if (mine.low < mine.at) return mine;
    const together = open.splice(open.indexOf(file));
    for (const member of together) seen.get(member)!.open = false;
    if (together.length > 1 || next.get(file)?.includes(file)) found.push(together.sort().join(" "));
    return mine;
  };
  for (const file of next.keys()) if (!seen.has(file)) visit(file);
  return found.sort();
}
