/** Where a job stands, and the events that led there. */
import { createRoute, z } from "@hono/zod-openapi";
import { doneLeftOut } from "../../acts/draftFinding.js";
import { type JobAsItStands, jobAsItStands } from "../../acts/job.js";
import { owed, spentOf } from "../../acts/owed.js";
import { event, standing } from "../../acts/shapes/agreements.js";
import { jobs } from "../../records/jobs.js";
import { eventsOf } from "../../records/trail.js";
import { ALWAYS, problems } from "../doors/answers.js";
import { look } from "../doors/look.js";
import { router } from "../doors/router.js";
import { calendarAnswer } from "../papers/calendarAnswer.js";

export const trail = router();
const tags = ["jobs"];
const params = z.strictObject({ id: z.string().min(1).max(100) });

look(trail, {
  ...{ path: "/api/jobs/{id}/events", tag: "jobs", name: "listEvents", answer: event, says: "Events" },
  title: "Everything that was put on record of a job, each event with the hash of itself and the one before",
  none: "There is no such job.",
  all: async (c, { id }) => ((await jobs.find(c.var.db, id)) ? eventsOf(c.var.db, id) : undefined),
});

trail.openapi(
  createRoute({
    method: "get",
    path: "/api/jobs/{id}/calendar.ics",
    tags,
    operationId: "findCalendar",
    summary: "The days of a job that belong in a calendar (RFC 5545)",
    description:
      "The last day of an offer that waits for an answer, and the day agreed work is about ready; 404 while there is neither",
    request: { params },
    responses: {
      200: { description: "iCalendar", content: { "text/calendar": { schema: { type: "string" } } } },
      ...problems("not found", ...ALWAYS),
    },
  }),
  async (c) => {
    const { id } = c.req.valid("param");
    return (await calendarAnswer(c, id, `${new URL(c.req.url).origin}/jobs/${id}`)) as never;
  },
);

look(trail, {
  ...{ path: "/api/jobs/{id}/standing", tag: "jobs", name: "findStanding", answer: standing, says: "Where the job stands" },
  title: "Which revision is current, which is agreed to, how far work may go on it, and what is not agreed",
  none: "There is no such job, or it has no estimate yet.",
  one: async (c, { id }) => {
    const job = await jobAsItStands(c.var.db, id);
    if (!job?.latest) return undefined;
    const { draft, current } = job;
    const [agreed, limit, spent] = [job.agreed(), job.limit(), spentOf(job)];
    return {
      owed: owed(job),
      unagreed: job.unagreed(),
      ...(draft && { draft: { id: draft.id, revision: draft.revision, version: draft.version, ...leftOutOf(job) } }),
      ...(current && { current: { ...current, superseded: false } }),
      ...(agreed && {
        agreed: {
          agreementId: agreed.agreement.id,
          revision: agreed.agreement.revision,
          limit,
          spent: spent && { total: spent.total, withoutTax: spent.withoutTax },
          asAgreed: job.agreedWork()?.asAgreed ?? false,
        },
      }),
    };
  },
});

function leftOutOf(job: JobAsItStands): { readonly leftOut?: string } {
  const leftOut = doneLeftOut(job);
  return leftOut === undefined ? {} : { leftOut };
}
