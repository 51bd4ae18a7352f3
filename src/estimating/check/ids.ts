/** Ids that stand twice, and ids that nothing stands for. */
import type { Problem } from "../problems.js";
import { NONE } from "./figures.js";
import { found, pointerTo, type Spot } from "./spot.js";

export function repeated<T>(list: readonly T[], id: (entry: T) => string, what: string, at: (index: number) => Spot): Problem[] {
  const seen = new Set<string>();
  return list.flatMap((entry, index) => {
    const key = id(entry);
    if (seen.has(key)) return [{ name: "id repeated" as const, what, id: key, pointer: pointerTo(at(index)) }];
    seen.add(key);
    return [];
  });
}

type Unknown =
  | "assembly unknown"
  | "operation unknown"
  | "part type unknown"
  | "part kind unknown"
  | "labour class unknown"
  | "tax category unknown"
  | "profile unknown";

/** `known` is the index that should have it. */
export const unknown = (
  name: Unknown,
  id: string,
  known: ReadonlyMap<string, unknown> | ReadonlySet<string>,
  at: Spot,
): readonly Problem[] => (known.has(id) ? NONE : [{ name, id, known: [...known.keys()], ...found(at) }]);
