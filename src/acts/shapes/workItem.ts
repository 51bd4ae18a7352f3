import { z } from "zod";
import { ident, line, maybe, percent, prose, threePoint } from "./primitives.js";

const certainty = z
  .discriminatedUnion("is", [
    z.strictObject({ is: z.literal("planned") }),
    z.strictObject({ is: z.literal("if found"), probability: z.number(), group: maybe(ident) }),
    z.strictObject({ is: z.literal("optional"), chosen: z.boolean(), group: maybe(ident), refused: maybe(z.int().min(1)) }).meta({
      description: "`refused`: the revision in which the owner left this work out",
    }),
  ])
  .meta({ id: "Certainty" });

const originalPart = z
  .strictObject({
    type: maybe(ident),
    value: maybe(line),
    ratedVolts: maybe(z.number()),
    workingVolts: maybe(z.number()),
    tolerancePercent: maybe(percent),
    audioGrade: maybe(z.boolean()),
  })
  .meta({ id: "OriginalPart" });

export const workItem = z
  .strictObject({
    id: ident,
    assembly: maybe(ident),
    operation: ident,
    count: z.number(),
    part: maybe(z.union([z.strictObject({ type: ident }), z.strictObject({ kind: ident })])),
    certainty,
    reason: maybe(prose),
    minutes: maybe(threePoint),
    original: maybe(originalPart),
  })
  .meta({ id: "WorkItem" });
