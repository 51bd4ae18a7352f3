/** A model's teardown map, into a form and out of one. */
import type { Hazard, TeardownMap } from "../../estimating/input.js";
import type { Acted } from "./act/rows.js";
import { type FormContext, penFor } from "./context.js";
import { draftFrom, WHOLE_UNIT } from "./draft.js";
import { type Fields, given, idOf, key } from "./fields.js";
import { fieldsForCounts, fieldsForMap } from "./fieldsFor.js";
import { assemblyRows } from "./names.js";
import type { Read } from "./readForm.js";
import { cellId } from "./readItems.js";

interface StartingModel {
  readonly id: string;
  readonly maker: string;
  readonly model: string;
  readonly map: TeardownMap;
  readonly hazards?: readonly Hazard[];
}

/** Begins, or goes on, from a map. What was typed already stays as typed. */
export function startFrom(fields: Fields, model: StartingModel, context: FormContext): Acted {
  const pen = penFor(context);
  const started = withoutBlankRows(fields);
  const counts = model.map.assemblies.flatMap(({ id, counts }) => fieldsForCounts(`cells.${key(id)}`, counts, pen));
  const hazards = (model.hazards ?? []).map((hazard) => [`caution.${key(hazard)}`, "on"] as const);
  for (const [name, text] of [...fieldsForMap(model.map, pen), ...counts, ...hazards]) {
    if (text !== undefined && !started.get(name)) started.set(name, text);
  }
  started.set("unit.maker", model.maker);
  started.set("unit.model", model.model);
  started.set("meta.modelId", model.id);
  return { fields: started, say: `The estimate starts from the map of ${model.maker} ${model.model}. Change what differs.` };
}

const BY_ASSEMBLY = /^(?:assembly|fasteners|hazards|cells|cellIds|usual)\.([^.]+)\./;

/** Rows that were offered empty give way to the map's. */
function withoutBlankRows(fields: Fields): Map<string, string> {
  const said = new Set([WHOLE_UNIT, ...assemblyRows(draftFrom(fields)).map(({ key }) => key)]);
  return new Map([...fields].filter(([name]) => said.has(BY_ASSEMBLY.exec(name)?.[1] ?? WHOLE_UNIT)));
}

/** The map of a form as a model to keep: its assemblies with the counts of the grid, which the next grid starts from. */
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
