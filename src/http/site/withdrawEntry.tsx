/** Withdrawing an entry of the work log on its page, which asks first; to correct one, the form comes back filled with it. */
import { type Context, Hono } from "hono";
import { readForm } from "../../acts/readForm.js";
import { withdrawEntry as act, NO_ENTRY, withdrawnAlready } from "../../acts/withdrawEntry.js";
import { WithdrawEntryPage } from "../../pages/revise/withdrawEntryPage.js";
import type { EntryKept } from "../../records/workLog.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { type Again, fieldsOf, fresh, NOT_A_FORM, pageDoor, sentForm } from "../doors/page.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { type JobSubject, jobSubject, lastHand, NO_JOB } from "./jobSubject.js";
import { logRow } from "./logRows.js";
import { showAnew } from "./workLog.js";

export const withdrawEntry = new Hono<AppEnv>();
const at = "/jobs/:id/work-log/:entry/withdrawal";

withdrawEntry.get(at, async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const entry = entryOf(subject, c.req.param("entry"));
  const { refused } = entry ? (entry.withdrawal ? withdrawnAlready(entry.withdrawal) : { refused: undefined }) : NO_ENTRY;
  if (!entry || refused) return refuse(c, refused!.is, refused);
  return ask(c, subject, entry, fresh(act, { by: subject.hand ?? entry.person ?? lastHand(subject) }));
});

withdrawEntry.post(at, async (c) => {
  const typed = await sentForm(c);
  if (!typed) return refuse(c, "media type unsupported", NOT_A_FORM);
  const desk = deskOf(c);
  const subject = await jobSubject(c, c.req.param("id"), desk);
  const id = c.req.param("entry");
  const entry = subject && entryOf(subject, id);
  if (!subject || !entry) return refuse(c, subject ? NO_ENTRY.refused.is : "not found", subject ? NO_ENTRY.refused : NO_JOB);
  if (typed.get("intent") === "correct") {
    const read = readForm(act.fields, typed, { ...subject.tongue, hand: subject.hand });
    if (entry.withdrawal) return refuse(c, "entry withdrawn already", withdrawnAlready(entry.withdrawal).refused);
    return read.ok
      ? showAnew(c, subject, entry, read.value)
      : ask(c, subject, entry, { ...fresh(act), fields: fieldsOf(typed), errors: read.errors, status: 422 });
  }
  return pageDoor(c, act, {
    on: { job: subject.job.id, entry: id },
    tongue: subject.tongue,
    desk,
    done: () => `/jobs/${subject.job.id}/work-log?withdrawn`,
    show: (again) => (again.refusal ? refuse(c, again.refusal.is, again.refusal) : ask(c, subject, entry, again)),
  });
});

const entryOf = ({ stands }: JobSubject, id: string): EntryKept | undefined => stands.everyEntry.find((each) => each.id === id);

function ask(
  c: Context<AppEnv>,
  { stands, head, settings, tongue, when }: JobSubject,
  entry: EntryKept,
  { fields, errors, says, status }: Pick<Again, "fields" | "errors" | "says"> & Partial<Again>,
) {
  const { closedOn } = stands;
  return pageAnswer(
    c,
    <WithdrawEntryPage
      frame={frameFor(c, settings.name)}
      job={head}
      tongue={tongue}
      entry={logRow(entry, stands.input()!, [], when)}
      {...{ fields, errors, says }}
      {...(closedOn !== undefined && { closedOn })}
    />,
    status,
  );
}
