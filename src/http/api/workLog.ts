/** What a job really took. Nothing may be logged beyond what the owner agreed to unless someone says why, by name. */
import { createRoute, z } from "@hono/zod-openapi";
import type { Context } from "hono";
import { uuidv7 } from "uuidv7";
import { jobs } from "../../records/jobs.js";
import type { EntryRefused, LimitRefusal } from "../../records/logRefusal.js";
import { logWork } from "../../records/logWork.js";
import { shopSettings } from "../../records/settings.js";
import { standingOf } from "../../records/standing.js";
import { entriesOf } from "../../records/workLog.js";
import type { AppEnv } from "../bindings.js";
import { entryRefused, limitRefused } from "../limits.js";
import { keptLogEntry, logEntry } from "../schemas/bench.js";
import { ALWAYS, json, ON_BODY, problems } from "./answers.js";
import { refused } from "./change.js";
import { once } from "./once.js";
import { router } from "./router.js";

export const workLog = router();
const tags = ["work log"];
export const ofJob = z.strictObject({ id: z.string().min(1).max(100) });
export const keyed = z.object({ "idempotency-key": z.string().optional() });
export const MISSING = { detail: "There is no such job, or it has no estimate yet." };
export const ON_LOGGING = [
  ...(["not found", "job closed", "work unagreed", "part unagreed", "limit passed"] as const),
  ...(["header refused", "idempotency key in flight", "idempotency key reused", ...ON_BODY, ...ALWAYS] as const),
] as const;

workLog.openapi(
  createRoute({
    method: "get",
    path: "/api/jobs/{id}/work-log",
    tags,
    operationId: "listWorkLog",
    summary: "The work log of a job, oldest entry first",
    request: { params: ofJob },
    responses: { 200: json(z.strictObject({ items: z.array(keptLogEntry) }), "Entries"), ...problems("not found", ...ALWAYS) },
  }),
  async (c) => {
    const { id } = c.req.valid("param");
    if (!(await jobs.find(c.var.db, id))) return refused(c, "not found", MISSING);
    return c.json({ items: await entriesOf(c.var.db, id) }, 200) as never;
  },
);

workLog.openapi(
  createRoute({
    method: "post",
    path: "/api/jobs/{id}/work-log",
    tags,
    operationId: "addLogEntry",
    summary: "Log time, a part used, or both",
    middleware: once,
    request: {
      params: ofJob,
      headers: keyed,
      body: { required: true, content: { "application/json": { schema: logEntry } } },
    },
    responses: { 201: json(keptLogEntry, "Logged"), ...problems(...ON_LOGGING) },
  }),
  async (c) => {
    const { override, ...entry } = c.req.valid("json");
    const { id: jobId } = c.req.valid("param");
    const logging = { id: uuidv7(), overrideId: uuidv7(), entry, override };
    const outcome = await logWork(c.var.db, jobId, logging, c.var.clock().toISOString());
    if (outcome.is === "logged") return c.json(outcome.record as never, 201) as never;
    return notKept(c, jobId, outcome);
  },
);

/** The answer to an entry of the bench that was not kept. */
export async function notKept(
  c: Context<AppEnv>,
  jobId: string,
  outcome: EntryRefused | LimitRefusal | { readonly is: "missing" },
): Promise<never> {
  if (outcome.is === "missing") return refused(c, "not found", MISSING);
  if (outcome.is === "refused") return refused(c, ...entryRefused(outcome));
  const { locale } = await shopSettings(c.var.db);
  const currency = (await standingOf(c.var.db, jobId))!.input!.currency;
  return refused(c, ...limitRefused(outcome, { locale, currency }));
}
