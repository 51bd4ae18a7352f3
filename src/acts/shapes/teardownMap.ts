import { z } from "zod";
import { ASSEMBLY_SORTS } from "../../estimating/lists.js";
import { boardSize, fastenerKind, hazard, ident, line, maybe, mounting, prose, threePoint } from "./primitives.js";

const access = z
  .discriminatedUnion("by", [
    z.strictObject({
      by: z.literal("fasteners"),
      fasteners: z.array(z.strictObject({ kind: fastenerKind, count: z.number() })),
    }),
    z.strictObject({ by: z.literal("measured"), remove: threePoint, refit: threePoint }),
    z.strictObject({ by: z.literal("standard"), size: boardSize, mounting }),
  ])
  .meta({ id: "Access" });

const assembly = z
  .strictObject({
    id: ident,
    name: line,
    sort: z.enum(ASSEMBLY_SORTS),
    access,
    behind: maybe(z.array(ident)),
    joined: maybe(z.array(ident)),
    hazards: maybe(z.array(hazard)),
    notes: maybe(prose),
    counts: maybe(z.record(ident, z.number())),
    worthDoing: maybe(z.array(z.strictObject({ operation: ident, count: z.number(), partType: maybe(ident), reason: line }))),
  })
  .meta({ id: "Assembly" });

export const teardownMap = z
  .strictObject({
    assemblies: z.array(assembly),
    // biome-ignore lint/suspicious/noThenProperty: the word of the teardown map; never awaited
    fitBefore: maybe(z.array(z.strictObject({ first: ident, then: ident, why: maybe(line) }))),
  })
  .meta({ id: "TeardownMap" });

export const boardCount = z.strictObject({ size: boardSize, mounting, count: z.number() }).meta({ id: "BoardCount" });
