/**
 * Counted boards become named assemblies with the same access, so that nothing need be typed twice and no cent changes; only
 * where tax is rounded line by line can the tax move, as more lines are printed. Work on the unit as a whole stays where it is.
 * Giving a board fasteners later changes only its access.
 */
import type { Assembly, EstimateInput } from "../input.js";

export function refineBoards(input: EstimateInput): EstimateInput {
  const { boards = [], map, toOpen = [], ...rest } = input;
  const taken = new Set(map?.assemblies.flatMap(({ id, name }) => [id, name]));
  let number = 0;
  const free = (of: (number: number) => string): string => {
    do number += 1;
    while (taken.has(of(number)) || taken.has(`Board ${number}`));
    return of(number);
  };
  const named = boards.flatMap(({ size, mounting, count }) =>
    Array.from({ length: count }, (): Assembly => {
      const id = free((n) => `board-${n}`);
      return { id, name: `Board ${number}`, sort: "board", access: { by: "standard", size, mounting } };
    }),
  );
  if (named.length === 0) return { ...rest, ...(map && { map }), ...(toOpen.length > 0 && { toOpen }) };
  return {
    ...rest,
    map: { ...map, assemblies: [...(map?.assemblies ?? []), ...named] },
    toOpen: [...toOpen, ...named.map(({ id }) => id)],
  };
}
