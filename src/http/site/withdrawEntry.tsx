/** Withdrawing an entry of the work log on its page, which asks first; to correct one, the form comes back filled with it. */
import { type Context, Hono } from "hono";
import { uuidv7 } from "uuidv7";
import { line, reading } from "../../pages/form/reading.js";
import { errorsIn, plainContext } from "../../pages/revise/smallForm.js";
import { WithdrawEntryPage } from "../../pages/revise/withdrawEntryPage.js";
import { closedOn } from "../../records/closed.js";
import { standingOf } from "../../records/standing.js";
import { withdrawEntry as withdraw } from "../../records/withdrawEntry.js";
import { type EntryKept, everyEntryOf } from "../../records/workLog.js";
import type { AppEnv } from "../bindings.js";
import { notWithdrawn } from "../limits.js";
import { refuse } from "../problems/refuse.js";
import { frameFor, pageAnswer } from "./frame.js";
import { type JobSubject, jobSubject, lastHand, NO_JOB } from "./jobSubject.js";
import { logRow } from "./logRows.js";
import { NOT_A_FORM, sentForm } from "./sentForm.js";
import { tokenOf } from "./token.js";

export const withdrawEntry = new Hono<AppEnv>();
const at = "/jobs/:id/work-log/:entry/withdrawal";

withdrawEntry.get(at, async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const entry = await entryOf(c, subject, c.req.param("entry"));
  if (!entry) return refuse(c, ...notWithdrawn({ is: "entry unknown" }));
  if (entry.withdrawal) return refuse(c, ...notWithdrawn({ is: "withdrawn already", record: entry.withdrawal }));
  const fields = new Map([
    ["token", uuidv7()],
    ["by", subject.hand ?? entry.person ?? lastHand(subject)],
  ]);
  return ask(c, subject, entry, fields);
});

withdrawEntry.post(at, async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const sent = await sentForm(c);
  if (!sent) return refuse(c, "media type unsupported", NOT_A_FORM);
  const { id: jobId } = subject.job;
  const { fields, intent } = sent;
  const entryId = c.req.param("entry");
  const { asOf, rateBook } = (await standingOf(c.var.db, jobId))!.input!;
  const spot = reading(plainContext(asOf, subject.tongue, rateBook));
  const by = line(spot, "by", fields.get("by"), 200);
  const reason = line(spot, "reason", fields.get("reason"));
  const errors = errorsIn(spot);
  if (!by && !errors.has("by")) errors.set("by", "Type your name: it goes on record with the withdrawal.");
  if (!reason && !errors.has("reason")) errors.set("reason", "Why: say what was wrong with the entry.");
  if (!by || !reason || errors.size > 0) {
    const entry = await entryOf(c, subject, entryId);
    return entry ? ask(c, subject, entry, fields, errors) : refuse(c, ...notWithdrawn({ is: "entry unknown" }));
  }
  const value = { id: tokenOf(fields), entryId, by, reason };
  const outcome = await withdraw(c.var.db, jobId, value, c.var.clock().toISOString());
  if (outcome.is !== "withdrawn") return refuse(c, ...notWithdrawn(outcome));
  const anew = intent === "correct" ? `?anew=${encodeURIComponent(entryId)}#entry` : "?withdrawn";
  return c.redirect(`/jobs/${jobId}/work-log${anew}`, 303);
});

const entryOf = async (c: Context<AppEnv>, { job }: JobSubject, id: string): Promise<EntryKept | undefined> =>
  (await everyEntryOf(c.var.db, job.id)).find((each) => each.id === id);

async function ask(
  c: Context<AppEnv>,
  { job, head, settings, tongue, when }: JobSubject,
  entry: EntryKept,
  fields: ReadonlyMap<string, string>,
  errors: ReadonlyMap<string, string> = new Map(),
) {
  const closed = await closedOn(c.var.db, job.id);
  const { input } = (await standingOf(c.var.db, job.id))!;
  return pageAnswer(
    c,
    <WithdrawEntryPage
      frame={frameFor(c, settings.name)}
      job={head}
      tongue={tongue}
      entry={logRow(entry, input!, [], when)}
      fields={fields}
      errors={errors}
      {...(closed !== undefined && { closedOn: closed })}
    />,
    errors.size > 0 ? 422 : 200,
  );
}
