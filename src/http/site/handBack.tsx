/** A declined job on its way back: the form, with what is owed as the log stands. What it came to is shown where any closed job is. */
import { type Context, Hono } from "hono";
import { uuidv7 } from "uuidv7";
import { closeDeclined, type HandingBack, handBackOf, wrongIn } from "../../acts/closeDeclined.js";
import { faultsOf } from "../../acts/closeJob.js";
import { fieldErrors, readForm, type Typed } from "../../acts/readForm.js";
import { declinedIn } from "../../acts/reckoning.js";
import { today } from "../../acts/today.js";
import { writeForm } from "../../acts/writeForm.js";
import { promised } from "../../estimating/closeout/account/declined.js";
import { agreedOf } from "../../estimating/closeout/jobDone.js";
import { tellsOpening } from "../../estimating/closeout/log/workLog.js";
import { HandBackPage } from "../../pages/closeout/handBackPage.js";
import { closeOuts } from "../../records/closeOuts.js";
import { givenText } from "../../wording/agreement.js";
import { money } from "../../wording/figures.js";
import { day } from "../../wording/time.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { type Again, fresh, pageDoor, sentForm } from "../doors/page.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { isClosedMeanwhile } from "./closedMeanwhile.js";
import { type JobSubject, jobSubject, lastHand, NO_JOB } from "./jobSubject.js";

export const handBack = new Hono<AppEnv>();
const at = "/jobs/:id/hand-back";

handBack.get(at, async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const { closeOut } = subject.stands;
  if (closeOut && c.req.query("correct") === undefined) return c.redirect(`/jobs/${subject.job.id}/close-out`, 303);
  const known = Object.fromEntries(writeForm(closeDeclined.fields, await knownOf(c, subject), subject.tongue));
  return show(c, subject, fresh(closeDeclined, known));
});

const TYPED_KEPT =
  "What you typed is below, and nothing of it is recorded: send it as a correction, with its reason, or leave it.";

const OPENED_UNSAID = "Was the unit opened? is missing; opening that is not logged is not charged. Choose one.";

/** Asked, and not answered. */
export const unsaidOpened = (typed: Typed) =>
  typed.names.includes("opened") && !typed.get("opened") ? { typed, wrong: new Map([["opened", OPENED_UNSAID]]) } : undefined;

handBack.post(at, async (c) => {
  const desk = deskOf(c);
  const subject = await jobSubject(c, c.req.param("id"), desk);
  if (!subject) return refuse(c, "not found", NO_JOB);
  const typed = await sentForm(c);
  const unsaid = typed && unsaidOpened(typed);
  return pageDoor(c, closeDeclined, {
    ...{ on: { job: subject.job.id }, tongue: subject.tongue, desk },
    ...(unsaid && { said: unsaid }),
    done: () => `/jobs/${subject.job.id}/close-out?closed`,
    show: async (again) => {
      const now = (again.refusal && (await jobSubject(c, subject.job.id))) ?? subject;
      const { stands } = now;
      if (!isClosedMeanwhile(stands, again.typed)) {
        const read = readForm(closeDeclined.fields, again.typed, { ...now.tongue, hand: now.hand });
        return show(c, now, again, read.ok ? read.value : read.read);
      }
      // Closed or corrected meanwhile, as in another tab: what was typed may still be a correction.
      const { closedOn, by, result } = stands.closeOut!;
      const { totals, agreedThen: then } = result.account;
      const how = then ? `, work done while it was agreed ${then.charged ? "charged" : "let go"}` : "";
      const stood = `It was closed on ${day(closedOn, now.tongue.locale)} by ${by}. On record it comes to ${money(totals.total, now.tongue)}${how}.`;
      const errors = new Map([...again.errors, ["", `${stood} ${TYPED_KEPT}`]]);
      return show(c, now, { ...again, errors, fields: new Map([...again.fields, ["token", uuidv7()]]) });
    },
  });
});

/** As it was closed, to be corrected; otherwise as the unit came, and as it cost in the job closed last. */
async function knownOf(c: Context<AppEnv>, subject: JobSubject): Promise<Partial<HandingBack>> {
  const { stands, owner, job, settings, hand } = subject;
  const { closeOut } = stands;
  if (closeOut) {
    const { on, oldParts, agreedThen: then, handBack: went } = closeOut.basis.terms;
    const { costs } = closeOut.basis;
    return {
      ...{ by: hand ?? closeOut.by, closedOn: on, oldParts, corrects: closeOut.id },
      ...(then && { agreedThen: then.charged ? ("charged" as const) : ("let go" as const) }),
      ...(went && { to: went.to, note: went.note, accessories: [...went.accessories] }),
      ...(went?.opened === false && { opened: "no" as const }),
      ...(costs && { costs: { otherwise: costs.otherwise } }),
    };
  }
  const [last] = await closeOuts.newest(c.var.db, 1);
  const perHour = last?.basis.costs?.otherwise;
  return {
    ...{ by: lastHand(subject), closedOn: today(c.var.clock(), settings.timeZone), to: owner.name },
    ...{ accessories: [...(job.accessories ?? [])], oldParts: { is: "returned" } },
    ...(perHour !== undefined && { costs: { otherwise: perHour } }),
  };
}

/** `read`: what could be read of what was sent, for all that is wrong to be told at once. */
async function show(
  c: Context<AppEnv>,
  subject: JobSubject,
  form: Pick<Again, "fields" | "errors" | "says"> & Partial<Again>,
  read?: Partial<HandingBack>,
) {
  const { head, settings, tongue, stands } = subject;
  const declined = declinedIn(stands);
  // What is wrong with the form moves nothing of what is owed.
  const day = form.fields.get("closedOn") || today(c.var.clock(), settings.timeZone);
  const agreedThen = form.fields.get("agreedThen") === "let go" ? "let go" : "charged";
  const ready = await handBackOf(deskOf(c), stands, { closedOn: day, to: "", agreedThen, oldParts: { is: "returned" } });
  if (!ready) return refuse(c, "not declined");
  if ("refused" in ready) return refuse(c, ready.refused.is, ready.refused);
  const { reckoned, toClose } = ready;
  const account = reckoned.ok ? reckoned.result.account : reckoned.partial?.account;
  const faults = reckoned.ok ? [] : faultsOf(reckoned).filter(({ pointer }) => pointer.startsWith("/log"));
  const wrong = read && form.errors.size > 0 && !form.errors.has("") ? wrongIn(stands, read, reckoned) : [];
  const errors = new Map([...fieldErrors(wrong, closeDeclined.fields), ...form.errors]);
  const most = promised(agreedOf(toClose.done), toClose.basis.terms.basis).upTo;
  return pageAnswer(
    c,
    <HandBackPage
      frame={frameFor(c, settings.name)}
      job={head}
      tongue={tongue}
      says={form.says}
      fields={form.fields}
      errors={new Map([...errors].filter(([field]) => !field.startsWith("log.")))}
      promised={most}
      asksOpened={most > 0 && !tellsOpening(stands.log())}
      {...(declined && { declined: `${declined.answer.by}, ${givenText(declined.answer, tongue.locale)}` })}
      logFaults={[...new Set(faults.map(({ detail }) => detail))]}
      {...(account && { account })}
      {...(stands.closeOut && { corrects: stands.closeOut.id })}
    />,
    form.status,
  );
}
