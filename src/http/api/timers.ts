/** Timers on the bench: one runs per person, and stopping it logs its time. */
import { createRoute, z } from "@hono/zod-openapi";
import { uuidv7 } from "uuidv7";
import { keptLogEntry, keptTimer, timerStart, timerStop } from "../../acts/shapes/bench.js";
import { today } from "../../acts/today.js";
import { jobs } from "../../records/jobs.js";
import { startTimer, stopTimer } from "../../records/runTimer.js";
import { shopSettings } from "../../records/settings.js";
import { timersOf } from "../../records/timers.js";
import { ALWAYS, json, problems } from "./answers.js";
import { refused } from "./change.js";
import { once } from "./once.js";
import { router } from "./router.js";
import { keyed, MISSING, notKept, ON_LOGGING, ofJob } from "./workLog.js";

export const timers = router();
const tags = ["work log"];

timers.openapi(
  createRoute({
    method: "get",
    path: "/api/jobs/{id}/timers",
    tags,
    operationId: "listTimers",
    summary: "Timers that run on a job",
    request: { params: ofJob },
    responses: { 200: json(z.strictObject({ items: z.array(keptTimer) }), "Timers"), ...problems("not found", ...ALWAYS) },
  }),
  async (c) => {
    const { id } = c.req.valid("param");
    if (!(await jobs.find(c.var.db, id))) return refused(c, "not found", MISSING);
    return c.json({ items: await timersOf(c.var.db, id) }, 200) as never;
  },
);

timers.openapi(
  createRoute({
    method: "post",
    path: "/api/jobs/{id}/timers",
    tags,
    operationId: "startTimer",
    summary: "Start a timer on agreed work",
    middleware: once,
    request: {
      params: ofJob,
      headers: keyed,
      body: { required: true, content: { "application/json": { schema: timerStart } } },
    },
    responses: { 201: json(keptTimer, "Running"), ...problems(...ON_LOGGING) },
  }),
  async (c) => {
    const { id: jobId } = c.req.valid("param");
    const { startedAt = c.var.clock().toISOString(), ...value } = c.req.valid("json");
    const outcome = await startTimer(c.var.db, jobId, { ...value, id: uuidv7(), startedAt });
    if (outcome.is === "started") return c.json(outcome.record as never, 201) as never;
    return notKept(c, jobId, outcome);
  },
);

timers.openapi(
  createRoute({
    method: "post",
    path: "/api/jobs/{id}/timers/stop",
    tags,
    operationId: "stopTimer",
    summary: "Stop the timer of a person and log its time",
    description: "While the log refuses the time, the timer goes on, so nothing is lost.",
    middleware: once,
    request: {
      params: ofJob,
      headers: keyed,
      body: { required: true, content: { "application/json": { schema: timerStop } } },
    },
    responses: { 201: json(keptLogEntry, "Logged"), ...problems("no timer running", ...ON_LOGGING) },
  }),
  async (c) => {
    const { id: jobId } = c.req.valid("param");
    const { person, endedAt = c.var.clock().toISOString(), override, note } = c.req.valid("json");
    const { timeZone } = await shopSettings(c.var.db);
    const workedOn = today(c.var.clock(), timeZone);
    const stopping = { overrideId: uuidv7(), endedAt, workedOn, override, ...(note !== undefined && { note }) };
    const outcome = await stopTimer(c.var.db, jobId, person, stopping, c.var.clock().toISOString());
    if (outcome.is === "logged") return c.json(outcome.record as never, 201) as never;
    if (outcome.is === "not running") return refused(c, "no timer running");
    return notKept(c, jobId, outcome);
  },
);
