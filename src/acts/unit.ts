/** Units: the physical things brought in. */
import { z } from "zod";
import { models } from "../records/models.js";
import { owners } from "../records/owners.js";
import { units } from "../records/units.js";
import { line, maybe, money, named, note, saying } from "./field.js";
import { adding, replacing } from "./record.js";
import { hazard } from "./shapes/primitives.js";
import { keptKeys } from "./shapes/resources.js";

const fields = z.strictObject({
  ownerId: named("Owner"),
  modelId: maybe(named("Teardown map")),
  maker: line("Maker"),
  model: line("Model"),
  serial: maybe(line("Serial number")),
  declaredValue: maybe(money("Declared value")),
  hazards: maybe(saying(z.array(hazard), { label: "Hazards", kind: "several" })),
  notes: maybe(note("Notes")),
});

export const unit = {
  one: "unit",
  fields,
  kept: fields.extend(keptKeys).meta({ id: "UnitRecord" }),
  rows: units,
  links: { ownerId: owners.find, modelId: models.find },
};
export const addUnit = adding(unit);
export const replaceUnit = replacing(unit);
