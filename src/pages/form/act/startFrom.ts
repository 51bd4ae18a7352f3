/** Begins, or goes on, from a model's teardown map. What was typed already stays as typed. */
import type { Hazard, TeardownMap } from "../../../estimating/input.js";
import type { FormContext } from "../context.js";
import { draftFrom, WHOLE_UNIT } from "../draft.js";
import { type Fields, key } from "../fields.js";
import { fieldsForCounts, fieldsForMap, penFor } from "../fieldsFor.js";
import { assemblyRows } from "../names.js";
import type { Acted } from "./act.js";

export interface StartingModel {
  readonly id: string;
  readonly maker: string;
  readonly model: string;
  readonly map: TeardownMap;
  readonly hazards?: readonly Hazard[];
}

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
  return { fields: started, say: `The grid starts from the map of ${model.maker} ${model.model}. Change what differs.` };
}

const BY_ASSEMBLY = /^(?:assembly|fasteners|hazards|cells|cellIds|usual)\.([^.]+)\./;

/** Rows that were offered empty give way to the map's. */
function withoutBlankRows(fields: Fields): Map<string, string> {
  const said = new Set([WHOLE_UNIT, ...assemblyRows(draftFrom(fields)).map(({ key }) => key)]);
  return new Map([...fields].filter(([name]) => said.has(BY_ASSEMBLY.exec(name)?.[1] ?? WHOLE_UNIT)));
}
