/** Ids that stand twice, and ids that nothing stands for. */
import type { Problem } from "../problems.js";

export function repeated<T>(
  list: readonly T[],
  id: (entry: T) => string,
  what: string,
  at: (index: number) => string,
): Problem[] {
  const seen = new Set<string>();
  return list.flatMap((entry, index): Problem[] => {
    const key = id(entry);
    if (seen.has(key)) return [{ name: "id repeated", what, id: key, pointer: at(index) }];
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
  | "tax category unknown";

/** `known` is the index that should have it. */
export const unknown = (
  name: Unknown,
  id: string,
  known: ReadonlyMap<string, unknown> | ReadonlySet<string>,
  where: string,
  pointer: string,
): Problem[] => (known.has(id) ? [] : [{ name, where, id, known: [...known.keys()], pointer }]);
