/** The query of a list that comes page by page. */
import { z } from "@hono/zod-openapi";

export const paged = z.strictObject({
  limit: z.coerce.number().int().min(1).max(200).default(50),
  after: z.string().max(100).optional().openapi({ description: "The last id of the page before" }),
});
