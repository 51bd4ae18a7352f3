/** The map of a form as a model to keep: its assemblies with the counts of the grid, which the next grid starts from. */
import type { TeardownMap } from "../../estimating/input.js";
import type { StartingModel } from "./act/startFrom.js";
import { idOf, key } from "./fields.js";
import { given } from "./given.js";
import type { Read } from "./readForm.js";
import { cellId } from "./readItems.js";

export function modelFrom(read: Read): Omit<StartingModel, "id"> | undefined {
  const { input } = read;
  if (!input.map) return undefined;
  const map: TeardownMap = {
    ...input.map,
    assemblies: input.map.assemblies.map((assembly) => {
      const counts = { ...assembly.counts, ...countsIn(read, key(assembly.id)) };
      return Object.keys(counts).length > 0 ? { ...assembly, counts } : assembly;
    }),
  };
  return given({ maker: input.unit.maker, model: input.unit.model, map, hazards: input.unit.hazards });
}

function countsIn({ draft, input }: Read, row: string): Record<string, number> {
  const counts: Record<string, number> = {};
  for (const column of Object.keys(draft.cells[row] ?? {})) {
    const id = draft.cellIds[row]?.[column] || cellId(row, idOf(column));
    const item = input.items.find((one) => one.id === id);
    if (item) counts[idOf(column).slice(2)] = item.count;
  }
  return counts;
}
