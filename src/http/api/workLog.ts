/** What a job really took. Nothing may be logged beyond what the owner agreed to unless someone says why, by name. */
import { createRoute, z } from "@hono/zod-openapi";
import type { Context } from "hono";
import { uuidv7 } from "uuidv7";
import { entryWithdrawal, keptEntryWithdrawal, keptLogEntry, listedLogEntry, logEntry } from "../../acts/shapes/bench.js";
import { jobs } from "../../records/jobs.js";
import type { EntryRefused, LimitRefusal } from "../../records/logRefusal.js";
import { logWork } from "../../records/logWork.js";
import { shopSettings } from "../../records/settings.js";
import { standingOf } from "../../records/standing.js";
import { withdrawEntry } from "../../records/withdrawEntry.js";
import { everyEntryOf } from "../../records/workLog.js";
import type { AppEnv } from "../bindings.js";
import { entryRefused, limitRefused, notWithdrawn } from "../limits.js";
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
    summary: "The work log of a job, oldest entry first; those with a `withdrawal` count nowhere",
    request: { params: ofJob },
    responses: { 200: json(z.strictObject({ items: z.array(listedLogEntry) }), "Entries"), ...problems("not found", ...ALWAYS) },
  }),
  async (c) => {
    const { id } = c.req.valid("param");
    if (!(await jobs.find(c.var.db, id))) return refused(c, "not found", MISSING);
    return c.json({ items: await everyEntryOf(c.var.db, id) }, 200) as never;
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

workLog.openapi(
  createRoute({
    method: "post",
    path: "/api/jobs/{id}/work-log/{entry}/withdrawal",
    tags,
    operationId: "withdrawLogEntry",
    summary: "Withdraw a wrong entry: it stays on record and counts nowhere, and its part goes back on the shelf",
    description: "To correct it, log it anew. Where the job is closed, its close-out is then to be corrected.",
    middleware: once,
    request: {
      params: ofJob.extend({ entry: z.string().min(1).max(100) }),
      headers: keyed,
      body: { required: true, content: { "application/json": { schema: entryWithdrawal } } },
    },
    responses: {
      201: json(keptEntryWithdrawal, "Withdrawn"),
      ...problems(
        ...(["not found", "log entry unknown", "entry withdrawn already", "header refused"] as const),
        ...(["idempotency key in flight", "idempotency key reused", ...ON_BODY, ...ALWAYS] as const),
      ),
    },
  }),
  async (c) => {
    const { id, entry } = c.req.valid("param");
    const value = { ...c.req.valid("json"), id: uuidv7(), entryId: entry };
    const outcome = await withdrawEntry(c.var.db, id, value, c.var.clock().toISOString());
    if (outcome.is === "withdrawn") return c.json(outcome.record as never, 201) as never;
    return refused(c, ...notWithdrawn(outcome));
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
