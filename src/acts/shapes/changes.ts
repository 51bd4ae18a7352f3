/** What changed between two revisions of a job. */
import { z } from "zod";
import { CAUSES } from "../../estimating/agreement/causes.js";
import { CERTAINTIES } from "../../estimating/lists.js";
import { amount, maybe } from "./primitives.js";
import { adjustment, groupPrice, sheetLine } from "./sheet.js";

const text = z.string();
const pair = <S extends z.ZodType>(schema: S) => ({ before: maybe(schema), after: maybe(schema) });
const both = <S extends z.ZodType>(schema: S) => ({ before: schema, after: schema });
const thenAndNow = z
  .strictObject({ ...both(amount), difference: amount })
  .meta({ id: "ThenAndNow", description: "A sum then and now" });
const cause = z.enum(CAUSES);

const row = {
  id: text,
  mark: z.enum(["added", "dropped", "corrected", "price changed", "rounding"]),
  fields: z
    .array(z.strictObject({ field: text, ...pair(z.unknown()) }))
    .meta({ description: "What differs, where it stands in both" }),
  cause: maybe(cause),
  reason: maybe(text),
  amount: amount.meta({
    description: "What it adds above the tax; of an option or possible work, by how much its own price differs",
  }),
};

export const faultsFound = z.strictObject({
  each: z
    .array(
      z
        .strictObject({
          ...{ item: text, name: text, reason: maybe(text), is: z.enum(CERTAINTIES), inTotal: z.boolean() },
          newPlace: maybe(text).meta({ description: "Where it is, if the earlier revision had no such place" }),
          price: amount.meta({ description: "By itself on top of the rest, as if it were needed, tax included" }),
          shared: amount.meta({ description: "How much less it adds beside the others in the total" }),
          opens: z.array(text).readonly().meta({ description: "Assemblies that come off for it by itself" }),
        })
        .meta({ id: "FaultFound" }),
    )
    .readonly(),
  together: amount.meta({ description: "What those in the total come to, tax included" }),
});

export const changes = z
  .strictObject({
    since: z.strictObject({
      ...{ number: maybe(text), revision: maybe(z.int()), date: maybe(text) },
      agreed: maybe(z.literal(true)).meta({
        description: "It is held against what the owner agreed to of it, not against all it offered",
      }),
    }),
    rows: z.array(
      z.discriminatedUnion("is", [
        z.strictObject({ is: z.literal("line"), ...row, ...pair(sheetLine) }),
        z.strictObject({ is: z.literal("adjustment"), ...row, ...pair(adjustment) }),
        z.strictObject({ is: z.literal("option"), ...row, ...pair(groupPrice) }),
        z.strictObject({ is: z.literal("if found"), ...row, ...pair(groupPrice) }),
      ]),
    ),
    sums: z.strictObject({ unchanged: amount, aboveTax: thenAndNow, taxOnTop: thenAndNow, total: thenAndNow }),
    causes: z
      .array(z.strictObject({ cause, together: maybe(z.array(cause)), amount, items: z.array(text) }))
      .meta({ description: "Sums to the difference of the totals; empty where the revisions no longer come to their sheets" }),
    categories: z.array(z.strictObject({ category: text, ...both(amount) })),
    figures: z.array(z.strictObject({ figure: text, ...both(z.union([amount, text])) })),
    faults: maybe(faultsFound).meta({
      description: "Faults found since, each with what it costs and shares; absent where there are none, or more than 20",
    }),
    context: z.array(text).meta({ description: "Parts of the input other than the work that differ" }),
  })
  .meta({ id: "Changes", description: "What changed between two revisions, by row, cause, category and figure" });
