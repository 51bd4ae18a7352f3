/** Finds jobs by what stands in them. */
import { z } from "@hono/zod-openapi";
import { search as lookFor, wordsIn } from "../../records/search.js";
import { look } from "../doors/look.js";
import { router } from "../doors/router.js";

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

look(search, {
  ...{ path: "/api/search", tag: "jobs", name: "searchJobs", query, answer: found, says: "Jobs found" },
  title: "Jobs in whose owner, unit, serial, faults and notes all words are found, newest first",
  few: (c, { q, limit }) => lookFor(c.var.db, wordsIn(q), limit),
});
