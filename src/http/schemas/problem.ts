import { z } from "@hono/zod-openapi";

export const problem = z
  .strictObject({
    type: z.string().openapi({ format: "uri-reference", description: "Listed at /problems" }),
    title: z.string(),
    status: z.number(),
    detail: z.string(),
    instance: z.string().optional(),
    errors: z
      .array(
        z.strictObject({
          type: z.string(),
          pointer: z.string().openapi({ description: "JSON pointer (RFC 6901) into the body" }),
          name: z.string(),
          detail: z.string(),
        }),
      )
      .optional(),
    current: z.unknown().optional().openapi({ description: "The record as it stands, where a change met another" }),
    errorsLeftOut: z.int().optional().openapi({ description: "How many more errors there are than are listed" }),
  })
  .openapi("Problem");
