/** What a job really took: its work log, timers, counts ticked off, readings. */
import { z } from "@hono/zod-openapi";
import { beginUnpaid } from "../../acts/beginUnpaid.js";
import { jobAsItStands } from "../../acts/job.js";
import { logWork } from "../../acts/logWork.js";
import { listedPayment, takePayment, withdrawPayment } from "../../acts/takePayment.js";
import { keptReading, takeReading } from "../../acts/takeReading.js";
import { keptTickOff, tickOff } from "../../acts/tickOff.js";
import { keptTimer, startTimer, stopTimer } from "../../acts/timer.js";
import { correctEntry, listedLogEntry, withdrawEntry } from "../../acts/withdrawEntry.js";
import { apiDoor } from "../doors/api.js";
import { look } from "../doors/look.js";
import { router } from "../doors/router.js";

export const bench = router();
const tag = "work log";
const on = ({ id }: { readonly id: string }) => ({ job: id });
const refusals = ["not found", "job closed", "work unagreed", "part unagreed", "limit passed"] as const;

const none = "There is no such job.";

look(bench, {
  ...{ path: "/api/jobs/{id}/work-log", tag, name: "listWorkLog", answer: listedLogEntry, says: "Entries", none },
  title: "The work log of a job, oldest entry first; those with a `withdrawal` count nowhere",
  all: async (c, { id }) => (await jobAsItStands(c.var.db, id))?.everyEntry,
});
apiDoor(bench, logWork, { path: "/api/jobs/{id}/work-log", tag, on, refusals });
apiDoor(bench, withdrawEntry, {
  path: "/api/jobs/{id}/work-log/{entry}/withdrawal",
  tag,
  description: "To correct it, see its correction. Where the job is closed, its close-out is then to be corrected.",
  on: ({ id, entry }) => ({ job: id, entry }),
  refusals: ["not found", "log entry unknown", "entry withdrawn already"],
});

apiDoor(bench, correctEntry, {
  path: "/api/jobs/{id}/work-log/{entry}/correction",
  tag,
  description: "Both are written or neither. The new entry is judged as if the wrong one had never been",
  example: { item: "w01", minutes: 12, person: "Marta Lind", withdrawal: { by: "Marta Lind", reason: "200 typed for 12" } },
  on: ({ id, entry }) => ({ job: id, entry }),
  refusals: [...refusals, "log entry unknown", "entry withdrawn already"],
});

look(bench, {
  ...{ path: "/api/jobs/{id}/payments", tag: "payments", name: "listPayments", answer: listedPayment, says: "Payments", none },
  title: "Payments on a job, by day; those with a `withdrawal` count nowhere",
  all: async (c, { id }) => (await jobAsItStands(c.var.db, id))?.payments,
});
apiDoor(bench, takePayment, {
  ...{ path: "/api/jobs/{id}/payments", tag: "payments", on, refusals: ["not found"] },
  description:
    "More than is owed is refused unless `beyond` says that it is meant. Its receipt is a PDF on the page of payments.",
});
apiDoor(bench, withdrawPayment, {
  ...{ path: "/api/jobs/{id}/payments/{payment}/withdrawal", tag: "payments", refusals: ["not found", "withdrawn already"] },
  description: "It stays on record. An account that credited it stays as it was printed until the close-out is corrected.",
  on: ({ id, payment }) => ({ job: id, payment }),
});

look(bench, {
  ...{ path: "/api/jobs/{id}/timers", tag, name: "listTimers", answer: keptTimer, says: "Timers", none },
  title: "Timers that run on a job",
  few: async (c, { id }) => (await jobAsItStands(c.var.db, id))?.timers.map(({ jobNumber: _, ...timer }) => timer),
});
apiDoor(bench, startTimer, { path: "/api/jobs/{id}/timers", tag, on, refusals });
apiDoor(bench, stopTimer, {
  path: "/api/jobs/{id}/timers/stop",
  tag,
  description: "While the log refuses the time, the timer goes on, so nothing is lost.",
  on,
  refusals: [...refusals, "no timer running"],
});

look(bench, {
  ...{ path: "/api/jobs/{id}/tick-offs", tag, name: "listTickOffs", answer: keptTickOff, says: "Counts", none },
  title: "What was ticked off, oldest first, and the counts that stand",
  all: async (c, { id }) => {
    const job = await jobAsItStands(c.var.db, id);
    return job && { done: job.done, items: job.tickOffs };
  },
  beside: { done: z.record(z.string(), z.number()).meta({ description: "Counts done, by work item" }) },
});
apiDoor(bench, tickOff, { path: "/api/jobs/{id}/tick-offs", tag, on, refusals });

apiDoor(bench, beginUnpaid, {
  path: "/api/jobs/{id}/beginning-unpaid",
  tag,
  on,
  refusals: ["not found", "nothing awaited"],
});

look(bench, {
  ...{ path: "/api/jobs/{id}/readings", tag, name: "listReadings", answer: keptReading, says: "Readings", none },
  title: "Readings taken, oldest first",
  all: async (c, { id }) => (await jobAsItStands(c.var.db, id))?.readings,
});
apiDoor(bench, takeReading, { path: "/api/jobs/{id}/readings", tag, on, refusals });
