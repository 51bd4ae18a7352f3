/** Models: teardown maps by maker and model, each once whatever the capitals. */
import { z } from "zod";
import type { Kept } from "../records/columns.js";
import { type Model, modelNamed, models } from "../records/models.js";
import type { Refusal } from "./act.js";
import { faultsIn, shopRateBook } from "./checked.js";
import { line, maybe, note, saying } from "./field.js";
import { adding, type Recorded, replacing } from "./record.js";
import { hazard } from "./shapes/primitives.js";
import { keptKeys } from "./shapes/resources.js";
import { teardownMap } from "./shapes/teardownMap.js";

const fields = z.strictObject({
  maker: line("Maker"),
  model: line("Model"),
  map: teardownMap,
  hazards: maybe(saying(z.array(hazard), { label: "Hazards", kind: "several" })),
  notes: maybe(note("Notes")),
});

/** A teardown map as one shop gives it to another. The version moves when a reader of the version before would misread it. */
export const MAP_FORMAT = "ohmwright teardown map";
export const MAP_VERSION = 1;
export const modelFile = z.strictObject({ format: z.literal(MAP_FORMAT), version: z.literal(MAP_VERSION), ...fields.shape });

export const model = {
  one: "model",
  fields,
  kept: fields.extend(keptKeys).meta({ id: "Model" }),
  rows: models,
  check: async ({ db }, { map }) =>
    faultsIn({ map }, await shopRateBook(db), "/map").map((fault) => ({ ...fault, pointer: `/map${fault.pointer}` })),
  twice: async ({ db }, { maker, model: name }, id): Promise<Refusal | undefined> => {
    const standing = await modelNamed(db, maker, name);
    if (!standing || standing.id === id) return undefined;
    const detail = `${standing.maker} ${standing.model} is on record already, as '${standing.id}'; change that one.`;
    return { is: "id taken", detail, current: standing };
  },
} satisfies Recorded<Model, Model & Kept>;
export const addModel = adding(model);
export const replaceModel = replacing(model);
