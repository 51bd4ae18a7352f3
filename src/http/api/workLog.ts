/** What a job really took. Nothing may be logged beyond what the owner agreed to unless someone says why, by name. */
import { createRoute, z } from "@hono/zod-openapi";
import { uuidv7 } from "uuidv7";
import { jobs } from "../../records/jobs.js";
import { logWork } from "../../records/logWork.js";
import { shopSettings } from "../../records/settings.js";
import { standingOf } from "../../records/standing.js";
import { entriesOf } from "../../records/workLog.js";
import { limitRefused } from "../limits.js";
import { keptLogEntry, logEntry } from "../schemas/agreements.js";
import { ALWAYS, json, ON_BODY, problems } from "./answers.js";
import { refused, unlinked } from "./change.js";
import { once } from "./once.js";
import { router } from "./router.js";

export const workLog = router();
const tags = ["work log"];
const params = z.strictObject({ id: z.string().min(1).max(100) });
const missing = { detail: "There is no such job, or it has no estimate yet." };

workLog.openapi(
  createRoute({
    method: "get",
    path: "/api/jobs/{id}/work-log",
    tags,
    operationId: "listWorkLog",
    summary: "The work log of a job, oldest entry first",
    request: { params },
    responses: { 200: json(z.strictObject({ items: z.array(keptLogEntry) }), "Entries"), ...problems("not found", ...ALWAYS) },
  }),
  async (c) => {
    const { id } = c.req.valid("param");
    if (!(await jobs.find(c.var.db, id))) return refused(c, "not found", missing);
    return c.json({ items: await entriesOf(c.var.db, id) }, 200) as never;
  },
);

workLog.openapi(
  createRoute({
    method: "post",
    path: "/api/jobs/{id}/work-log",
    tags,
    operationId: "addLogEntry",
    summary: "Log work or parts",
    middleware: once,
    request: {
      params,
      headers: z.object({ "idempotency-key": z.string().optional() }),
      body: { required: true, content: { "application/json": { schema: logEntry } } },
    },
    responses: {
      201: json(keptLogEntry, "Logged"),
      ...problems(
        ...(["not found", "work unagreed", "limit passed"] as const),
        ...(["header refused", "idempotency key in flight", "idempotency key reused", ...ON_BODY, ...ALWAYS] as const),
      ),
    },
  }),
  async (c) => {
    const { override, ...entry } = c.req.valid("json");
    const { id: jobId } = c.req.valid("param");
    const logging = { id: uuidv7(), overrideId: uuidv7(), entry, override };
    const outcome = await logWork(c.var.db, jobId, logging, c.var.clock().toISOString());
    switch (outcome.is) {
      case "logged":
        return c.json(outcome.record as never, 201) as never;
      case "missing":
        return refused(c, "not found", missing);
      case "unknown":
        return refused(c, "input refused", unlinked(outcome));
      default: {
        const { locale } = await shopSettings(c.var.db);
        const currency = (await standingOf(c.var.db, jobId))!.input!.currency;
        return refused(c, ...limitRefused(outcome, { locale, currency }));
      }
    }
  },
);
