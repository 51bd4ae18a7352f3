/** Finds jobs by what stands in them. */
import { createRoute, z } from "@hono/zod-openapi";
import { search as look, wordsIn } from "../../records/search.js";
import { ALWAYS, json, problems } from "./answers.js";
import { router } from "./router.js";

export const search = router();

const query = z.strictObject({
  q: z
    .string()
    .min(1)
    .max(200)
    .openapi({ description: "Words; each must begin a word of the job, or stand in one of its numbers" }),
  limit: z.coerce.number().int().min(1).max(100).default(20),
});

const found = z
  .strictObject({
    jobId: z.string(),
    number: z.string(),
    arrivedOn: z.string(),
    owner: z.string(),
    unit: z.string(),
    serial: z.string().optional(),
    told: z.string().meta({ description: "What was reported, found and noted" }),
  })
  .meta({ id: "FoundJob" });

search.openapi(
  createRoute({
    method: "get",
    path: "/api/search",
    tags: ["jobs"],
    operationId: "searchJobs",
    summary: "Jobs in whose owner, unit, serial, faults and notes all words are found, newest first",
    request: { query },
    responses: { 200: json(z.strictObject({ items: z.array(found) }), "Jobs found"), ...problems("query refused", ...ALWAYS) },
  }),
  async (c) => {
    const { q, limit } = c.req.valid("query");
    return c.json({ items: await look(c.var.db, wordsIn(q), limit) }, 200) as never;
  },
);
