import { z } from "zod";

export const problem = z
  .strictObject({
    type: z.string().meta({ format: "uri-reference", description: "Listed at /problems" }),
    title: z.string(),
    status: z.number(),
    detail: z.string(),
    instance: z.string().optional(),
    errors: z
      .array(
        z.strictObject({
          type: z.string(),
          pointer: z.string().optional().meta({ description: "JSON pointer (RFC 6901) into the body" }),
          parameter: z.string().optional().meta({ description: "Of the query or the path, in place of a pointer" }),
          name: z.string(),
          detail: z.string(),
        }),
      )
      .optional(),
    current: z.unknown().optional().meta({ description: "The record as it stands, where a change met another" }),
    errorsLeftOut: z.int().optional().meta({ description: "How many more errors there are than are listed" }),
  })
  .meta({ id: "Problem" });
