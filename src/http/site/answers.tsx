/** The owner's answers and questions as the shop sees them, and an answer given elsewhere than on the page put on record. */
import { type Context, Hono } from "hono";
import { uuidv7 } from "uuidv7";
import { afterEndOf, owedTakenBack } from "../../acts/answered.js";
import { type Typed as Sent, typedWith } from "../../acts/readForm.js";
import { recordAnswer } from "../../acts/recordAnswer.js";
import { replyToQuestion } from "../../acts/replyToQuestion.js";
import { today } from "../../acts/today.js";
import { type AgreedSet, strikeable } from "../../estimating/agreement/choices.js";
import { measured } from "../../estimating/agreement/limit.js";
import type { EstimateInput, IsoDate } from "../../estimating/input.js";
import { profileOf } from "../../estimating/law/profiles.js";
import { SPOKEN_FIELDS } from "../../estimating/law/spoken.js";
import type { AskedForm } from "../../pages/frame/ask.js";
import type { AnswerFormProps } from "../../pages/revise/answerForm.js";
import { type AnswerRow, AnswersPage } from "../../pages/revise/answersPage.js";
import type { Agreement } from "../../records/agreements.js";
import type { Estimate } from "../../records/estimates.js";
import { givenText, spokenFieldText } from "../../wording/agreement.js";
import { money as cash } from "../../wording/figures.js";
import { capital } from "../../wording/list.js";
import { day } from "../../wording/time.js";
import type { AppEnv } from "../bindings.js";
import { fieldsOf, fresh, NOT_A_FORM, type PageStatus, pageDoor, sentForm } from "../doors/page.js";
import { frameFor, pageAnswer, recordScriptFor } from "../frame/frame.js";
import { leftOut } from "../owner/fields.js";
import { ownerWork } from "../owner/ownerSheet.js";
import { refuse } from "../problems/refuse.js";
import { type JobSubject, jobSubject, lastHand, NO_JOB } from "./jobSubject.js";

export const answers = new Hono<AppEnv>();

answers.get("/jobs/:id/answers", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const about = aboutOf(subject, c.req.query("corrects"));
  const say =
    c.req.query("recorded") !== undefined
      ? "The answer is on record."
      : c.req.query("replied") !== undefined
        ? "The owner reads the reply on the page."
        : undefined;
  return show(c, subject, about, about && blankOf(c, subject, about), { say });
});

answers.post("/jobs/:id/answers", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const sent = await sentForm(c);
  if (!sent) return refuse(c, "media type unsupported", NOT_A_FORM);
  const about = aboutOf(subject, sent.get("corrects"));
  if (!about) return refuse(c, "estimate not issued");
  const set = { chosen: sent.all("chosen"), struck: leftOut(sent.all("work"), strikeable(about.input)) };
  const typed = (form: AskedForm): Typed => ({ form, set });
  const answer = sent.get("answer");
  if (answer === undefined) return show(c, subject, about, typed({ ...fresh(recordAnswer), fields: fieldsOf(sent) }));
  return pageDoor(c, recordAnswer, {
    on: { estimate: about.estimate.id },
    said: { typed: asAnswer(sent, answer, set) },
    anew: true,
    tongue: subject.tongue,
    done: () => `/jobs/${subject.job.id}/answers?recorded`,
    show: (again) => show(c, subject, about, typed(again), { status: again.status }),
  });
});

/** What was left out, and an answer to match: the buttons say agreed or declined, the ticks whether it is in part. */
const asAnswer = (sent: Sent, answer: string, { struck }: AgreedSet): Sent =>
  typedWith(sent, { struck: [...struck], answer: answer === "agreed" && struck.length > 0 ? "part agreed" : answer });

answers.post("/jobs/:id/questions/:question/replies", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const question = c.req.param("question");
  return pageDoor(c, replyToQuestion, {
    on: { question, job: subject.job.id },
    tongue: subject.tongue,
    done: () => `/jobs/${subject.job.id}/answers?replied#questions`,
    show: async (again) => {
      const about = aboutOf(subject, undefined);
      return show(c, subject, about, about && blankOf(c, subject, about), {
        status: again.status,
        reply: { to: question, form: again },
      });
    },
  });
});

/** The revision that can be answered now: the current one, or that of the record to be corrected. */
interface About {
  readonly estimate: Estimate;
  readonly input: EstimateInput;
  readonly records: readonly Agreement[];
  readonly corrects?: Agreement;
}

interface Typed {
  readonly form: AskedForm;
  readonly set: AgreedSet;
}

function aboutOf({ stands, revisions }: JobSubject, corrects: string | undefined): About | undefined {
  const old = corrects === undefined ? undefined : stands.answers.find(({ id }) => id === corrects);
  const estimate = old ? stands.revision(old.estimateId) : revisions.findLast(({ issuedAt }) => issuedAt);
  return estimate && { estimate, input: stands.inputOf(estimate), records: stands.answers, ...(old && { corrects: old }) };
}

function blankOf(c: Context<AppEnv>, subject: JobSubject, { estimate, corrects }: About): Typed {
  const { settings, owner } = subject;
  const now = c.var.clock();
  const time = new Intl.DateTimeFormat("en-GB", { hour: "2-digit", minute: "2-digit", timeZone: settings.timeZone }).format(now);
  const form = fresh(recordAnswer, {
    channel: "telephone",
    by: corrects?.by ?? owner?.name ?? "",
    recordedBy: lastHand(subject),
    // When a correction was said, whoever heard it knows: it may be the old answer put right, or a new one.
    ...(corrects ? {} : { "spoken.date": today(now, settings.timeZone), "spoken.time": time }),
    "spoken.numberCalled": owner?.phone ?? "",
  });
  return {
    form,
    set: corrects ?? { chosen: (estimate.sheet?.options ?? []).flatMap(({ id, chosen }) => (chosen ? [id] : [])), struck: [] },
  };
}

interface Shown {
  readonly say?: string | undefined;
  readonly status?: PageStatus;
  /** A reply that was not sent. */
  readonly reply?: { readonly to: string; readonly form: AskedForm };
}

function show(
  c: Context<AppEnv>,
  subject: JobSubject,
  about: About | undefined,
  typed: Typed | undefined,
  { say, status = 200, reply }: Shown = {},
) {
  const { stands, head, settings, tongue, revisions, when } = subject;
  const records = about?.records ?? [];
  const corrected = new Set(records.map(({ corrects }) => corrects));
  const form =
    about && typed && canBeAnswered(about) ? formOf(subject, about, typed, today(c.var.clock(), settings.timeZone)) : undefined;
  const blankReply = fresh(replyToQuestion, { by: lastHand(subject) });
  return pageAnswer(
    c,
    <AnswersPage
      frame={frameFor(c, settings.name)}
      script={recordScriptFor(c)}
      job={head}
      tongue={tongue}
      answers={records.map((record) => rowOf(record, subject, !corrected.has(record.id))).reverse()}
      questions={stands.questions.map(({ id, at, estimateId, text, replies }) => ({
        id,
        at: when(at),
        text,
        revision: revisions.find((revision) => revision.id === estimateId)?.revision ?? 0,
        replies: replies.map((reply) => ({ at: when(reply.at), by: reply.by, text: reply.text })),
      }))}
      replyTo={(id) =>
        reply?.to === id ? reply.form : { ...blankReply, fields: new Map(blankReply.fields).set("token", uuidv7()) }
      }
      errors={reply?.form.errors ?? typed?.form.errors ?? new Map()}
      say={say}
      {...(form && { form })}
    />,
    status,
  );
}

/** A second answer to a revision is a correction, and starts from the record it corrects. */
const canBeAnswered = ({ estimate, records, corrects }: About): boolean =>
  corrects !== undefined || !records.some(({ estimateId }) => estimateId === estimate.id);

function formOf(
  { stands, head, tongue }: JobSubject,
  { estimate, input, corrects }: About,
  { form, set }: Typed,
  now: IsoDate,
): AnswerFormProps {
  const asTicked = stands.priced(estimate.id, set);
  const priced = "is" in asTicked ? stands.priced(estimate.id, { chosen: [], struck: [] }) : asTicked;
  if ("is" in priced) throw new Error("An issued estimate cannot be priced.");
  const profile = profileOf(input.policy?.profile);
  const earlier = stands.agreed(estimate.revision);
  const back = corrects && corrects.answer !== "declined" ? owedTakenBack(stands, estimate.id) : undefined;
  const before = earlier ? measured(profile, earlier.sheet.totals) : 0;
  return {
    job: head,
    tongue,
    revision: estimate.revision,
    contentHash: estimate.contentHash,
    options: priced.sheet.options,
    work: ownerWork(input, estimate.sheet!),
    beforeTax: priced.sheet.totals.tax !== 0 && !priced.sheet.totals.pricesIncludeTax,
    chosen: set.chosen,
    struck: set.struck,
    total: priced.sheet.totals.total,
    additional: Math.max(0, measured(profile, priced.sheet.totals) - before),
    withTax: profile.taxCounts,
    onTop: earlier !== undefined,
    spokenFields: profile.spokenFields,
    form,
    ...(now > estimate.sheet!.validUntil && { ended: day(estimate.sheet!.validUntil, tongue.locale) }),
    ...(back !== undefined && { back }),
    ...(corrects && {
      corrects: {
        id: corrects.id,
        text: `revision ${corrects.revision}, ${corrects.answer} by ${corrects.by}, ${givenText(corrects, tongue.locale)}.`,
      },
    }),
  };
}

const CHANNEL = {
  page: "on the owner's page",
  "in person": "in person",
  telephone: "by telephone",
  "e-mail": "by e-mail",
} as const;

function rowOf(record: Agreement, { stands: job, when, tongue }: JobSubject, stands: boolean): AnswerRow {
  const { spoken, channel, corrects, at, zone: _, recordedBy, ...rest } = record;
  const sheet = job.revision(record.estimateId)?.sheet;
  const late = sheet && afterEndOf(record, job, sheet);
  return {
    ...rest,
    given: givenText(record, tongue.locale),
    ...(recordedBy && { recorded: `${recordedBy}, ${when(at)}` }),
    channel: CHANNEL[channel],
    correction: corrects !== undefined,
    stands,
    ...(late && { ended: day(sheet.validUntil, tongue.locale) }),
    spoken: spoken
      ? SPOKEN_FIELDS.flatMap((field) => {
          const said = spoken[field];
          const text = typeof said === "number" ? cash(said, tongue) : said;
          return text === undefined ? [] : [[capital(spokenFieldText(field)), text] as const];
        })
      : [],
  };
}
