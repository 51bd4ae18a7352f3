import { z } from "zod";
import { offerState } from "./part.js";
import { amount, ident, line, maybe, percent, prose, threePoint } from "./primitives.js";
import { ownWorkKeys } from "./rateBook.js";

const certainty = z
  .discriminatedUnion("is", [
    z.strictObject({ is: z.literal("planned") }),
    z.strictObject({ is: z.literal("if found"), probability: z.number(), group: maybe(ident) }),
    z.strictObject({ is: z.literal("optional"), chosen: z.boolean(), group: maybe(ident), refused: maybe(z.int().min(1)) }).meta({
      description: "`refused`: the revision in which the owner left this work out",
    }),
  ])
  .meta({ id: "Certainty" });

/** Whose words they are, and what they cost: `estimating/input.ts`. Lengths beyond a line's are for the engine to refuse. */
const ownWork = z
  .strictObject({
    ...ownWorkKeys,
    price: maybe(amount).meta({
      description: "Fixed, for one count; in place of the minutes or beside them. Below 0: a credit",
    }),
    taxCategory: maybe(ident).meta({ description: "Of the rate book; that of labour when absent" }),
  })
  .meta({ id: "OwnWork", description: "Work in the shop's own words, by its minutes for one count or at a fixed price" });

const ownPart = z
  .strictObject({
    name: line,
    type: maybe(ident).meta({ description: "Part type of the rate book whose leads or minutes it takes" }),
    broughtByOwner: maybe(z.literal(true)).meta({ description: "It costs nothing, and the shop gives no warranty on it" }),
    cost: maybe(amount).meta({ description: "For one piece" }),
    source: maybe(line),
    state: maybe(offerState),
    leadDays: maybe(z.number()),
    packSize: maybe(z.number()),
    minimumPacks: maybe(z.number()),
    shareGood: maybe(z.number()),
  })
  .meta({ id: "OwnPart", description: "A part in the shop's own words: bought at a cost, or brought by the owner" });

const partPrice = z
  .strictObject({ cost: amount, reason: line, source: maybe(line), leadDays: maybe(z.number()) })
  .meta({ id: "PartPrice", description: "Another price for a known part on this line, for one piece, and its days to arrive" });

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
    operation: maybe(ident),
    own: maybe(ownWork),
    service: maybe(ident),
    count: z.number(),
    part: maybe(z.union([z.strictObject({ type: ident }), z.strictObject({ kind: ident }), z.strictObject({ own: ownPart })])),
    partPrice: maybe(partPrice),
    certainty,
    reason: maybe(prose),
    minutes: maybe(threePoint),
    original: maybe(originalPart),
  })
  .meta({ id: "WorkItem" });
