/** What a job really took: its work log, timers, counts ticked off, readings. */
import { createRoute, z } from "@hono/zod-openapi";
import type { Context } from "hono";
import { type JobAsItStands, jobAsItStands } from "../../acts/job.js";
import { logWork } from "../../acts/logWork.js";
import { keptReading, takeReading } from "../../acts/takeReading.js";
import { keptTickOff, tickOff } from "../../acts/tickOff.js";
import { keptTimer, startTimer, stopTimer } from "../../acts/timer.js";
import { listedLogEntry, withdrawEntry } from "../../acts/withdrawEntry.js";
import type { AppEnv } from "../bindings.js";
import { apiDoor } from "../doors/api.js";
import { ALWAYS, json, problems } from "./answers.js";
import { refused } from "./change.js";
import { router } from "./router.js";

export const bench = router();
const tag = "work log";
const on = ({ id }: { readonly id: string }) => ({ job: id });
const refusals = ["not found", "job closed", "work unagreed", "part unagreed", "limit passed"] as const;

/** A list of the job's records, oldest first. */
const list = (
  path: string,
  operationId: string,
  summary: string,
  item: z.ZodType,
  of: (job: JobAsItStands) => readonly unknown[],
  beside: { readonly shape?: z.ZodRawShape; readonly of?: (job: JobAsItStands) => object } = {},
) =>
  bench.openapi(
    createRoute({
      method: "get",
      path: `/api/jobs/{id}/${path}`,
      tags: [tag],
      operationId,
      summary,
      request: { params: z.strictObject({ id: z.string().min(1).max(100) }) },
      responses: {
        200: json(z.strictObject({ ...beside.shape, items: z.array(item) }), "As they stand"),
        ...problems("not found", ...ALWAYS),
      },
    }),
    (async (c: Context<AppEnv>) => {
      const job = await jobAsItStands(c.var.db, c.req.param("id")!);
      return job ? c.json({ ...beside.of?.(job), items: of(job) }) : refused(c, "not found", { detail: "There is no such job." });
    }) as never,
  );

list(
  "work-log",
  "listWorkLog",
  "The work log of a job, oldest entry first; those with a `withdrawal` count nowhere",
  listedLogEntry,
  ({ everyEntry }) => everyEntry,
);
apiDoor(bench, logWork, { path: "/api/jobs/{id}/work-log", tag, on, refusals });
apiDoor(bench, withdrawEntry, {
  path: "/api/jobs/{id}/work-log/{entry}/withdrawal",
  tag,
  description: "To correct it, log it anew. Where the job is closed, its close-out is then to be corrected.",
  on: ({ id, entry }) => ({ job: id, entry }),
  refusals: ["not found", "log entry unknown", "entry withdrawn already"],
});

list("timers", "listTimers", "Timers that run on a job", keptTimer, ({ timers }) =>
  timers.map(({ jobNumber: _, ...timer }) => timer),
);
apiDoor(bench, startTimer, { path: "/api/jobs/{id}/timers", tag, on, refusals });
apiDoor(bench, stopTimer, {
  path: "/api/jobs/{id}/timers/stop",
  tag,
  description: "While the log refuses the time, the timer goes on, so nothing is lost.",
  on,
  refusals: [...refusals, "no timer running"],
});

list(
  "tick-offs",
  "listTickOffs",
  "What was ticked off, oldest first, and the counts that stand",
  keptTickOff,
  ({ tickOffs }) => tickOffs,
  {
    shape: { done: z.record(z.string(), z.number()).meta({ description: "Counts done, by work item" }) },
    of: ({ done }) => ({ done }),
  },
);
apiDoor(bench, tickOff, { path: "/api/jobs/{id}/tick-offs", tag, on, refusals });

list("readings", "listReadings", "Readings taken, oldest first", keptReading, ({ readings }) => readings);
apiDoor(bench, takeReading, { path: "/api/jobs/{id}/readings", tag, on, refusals });
