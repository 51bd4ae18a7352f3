/** Counts ticked off on the bench, and readings taken. */
import { createRoute, z } from "@hono/zod-openapi";
import { uuidv7 } from "uuidv7";
import { keptReading, keptTickOff, reading, tickOff as tickOffShape } from "../../acts/shapes/bench.js";
import { doneCounts } from "../../records/benchLog.js";
import { jobs } from "../../records/jobs.js";
import { readingsOf } from "../../records/readings.js";
import { takeReading, tickOff } from "../../records/tickOff.js";
import { tickOffsOf } from "../../records/tickOffs.js";
import { ALWAYS, json, problems } from "./answers.js";
import { refused } from "./change.js";
import { once } from "./once.js";
import { router } from "./router.js";
import { keyed, MISSING, notKept, ON_LOGGING, ofJob } from "./workLog.js";

export const bench = router();
const tags = ["work log"];
const done = z.record(z.string(), z.number()).meta({ description: "Counts done, by work item" });

bench.openapi(
  createRoute({
    method: "get",
    path: "/api/jobs/{id}/tick-offs",
    tags,
    operationId: "listTickOffs",
    summary: "What was ticked off, oldest first, and the counts that stand",
    request: { params: ofJob },
    responses: {
      200: json(z.strictObject({ done, items: z.array(keptTickOff) }), "Counts"),
      ...problems("not found", ...ALWAYS),
    },
  }),
  async (c) => {
    const { id } = c.req.valid("param");
    if (!(await jobs.find(c.var.db, id))) return refused(c, "not found", MISSING);
    return c.json({ done: await doneCounts(c.var.db, id), items: await tickOffsOf(c.var.db, id) }, 200) as never;
  },
);

bench.openapi(
  createRoute({
    method: "post",
    path: "/api/jobs/{id}/tick-offs",
    tags,
    operationId: "addTickOff",
    summary: "Say how much of a work item is done",
    middleware: once,
    request: {
      params: ofJob,
      headers: keyed,
      body: { required: true, content: { "application/json": { schema: tickOffShape } } },
    },
    responses: { 201: json(keptTickOff, "Ticked off"), ...problems(...ON_LOGGING) },
  }),
  async (c) => {
    const { id: jobId } = c.req.valid("param");
    const outcome = await tickOff(c.var.db, jobId, uuidv7(), c.req.valid("json"), c.var.clock().toISOString());
    if (outcome.is === "kept") return c.json(outcome.record as never, 201) as never;
    return notKept(c, jobId, outcome);
  },
);

bench.openapi(
  createRoute({
    method: "get",
    path: "/api/jobs/{id}/readings",
    tags,
    operationId: "listReadings",
    summary: "Readings taken, oldest first",
    request: { params: ofJob },
    responses: { 200: json(z.strictObject({ items: z.array(keptReading) }), "Readings"), ...problems("not found", ...ALWAYS) },
  }),
  async (c) => {
    const { id } = c.req.valid("param");
    if (!(await jobs.find(c.var.db, id))) return refused(c, "not found", MISSING);
    return c.json({ items: await readingsOf(c.var.db, id) }, 200) as never;
  },
);

bench.openapi(
  createRoute({
    method: "post",
    path: "/api/jobs/{id}/readings",
    tags,
    operationId: "addReading",
    summary: "Put a reading on record",
    middleware: once,
    request: {
      params: ofJob,
      headers: keyed,
      body: { required: true, content: { "application/json": { schema: reading } } },
    },
    responses: { 201: json(keptReading, "On record"), ...problems(...ON_LOGGING) },
  }),
  async (c) => {
    const { id: jobId } = c.req.valid("param");
    const outcome = await takeReading(c.var.db, jobId, uuidv7(), c.req.valid("json"), c.var.clock().toISOString());
    if (outcome.is === "kept") return c.json(outcome.record as never, 201) as never;
    return notKept(c, jobId, outcome);
  },
);
