/** A teardown map as one shop gives it to another. `version` moves when a reader of the version before would misread it. */
import { z } from "zod";
import { model } from "./resources.js";

export const MAP_FORMAT = "ohmwright teardown map";
export const MAP_VERSION = 1;

export const modelFile = z.strictObject({ format: z.literal(MAP_FORMAT), version: z.literal(MAP_VERSION), ...model.shape });
