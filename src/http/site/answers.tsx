/** The owner's answers and questions as the shop sees them, and an answer given elsewhere than on the page put on record. */
import { type Context, Hono } from "hono";
import { uuidv7 } from "uuidv7";
import { ANSWERS } from "../../acts/refusals.js";
import { today } from "../../acts/today.js";
import { type AgreedSet, pricedSet, strikeable } from "../../estimating/agreement/choices.js";
import { measured } from "../../estimating/agreement/limit.js";
import { SPOKEN_FIELDS, type SpokenAgreement } from "../../estimating/agreement/spoken.js";
import type { EstimateInput } from "../../estimating/input.js";
import { profileOf } from "../../estimating/law/profiles.js";
import { line, money, note, type Reading, reading } from "../../pages/form/reading.js";
import type { AnswerFormProps } from "../../pages/revise/answerForm.js";
import { type AnswerRow, AnswersPage } from "../../pages/revise/answersPage.js";
import { errorsIn, plainContext } from "../../pages/revise/smallForm.js";
import { type Agreement, ANSWERS_GIVEN, agreedTo, answersOf } from "../../records/agreements.js";
import { type Estimate, estimates } from "../../records/estimates.js";
import { pricedAgreement } from "../../records/pricedSet.js";
import { questions } from "../../records/questions.js";
import { spokenFieldText } from "../../wording/agreement.js";
import { money as cash } from "../../wording/figures.js";
import { workTitle } from "../../wording/line.js";
import { capital } from "../../wording/list.js";
import { answering, answerRefused } from "../answering.js";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";
import { frameFor, pageAnswer } from "./frame.js";
import { type JobSubject, jobSubject, lastHand, NO_JOB } from "./jobSubject.js";
import { NOT_A_FORM, sentForm } from "./sentForm.js";

export const answers = new Hono<AppEnv>();

answers.get("/jobs/:id/answers", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const about = await aboutOf(c, subject, c.req.query("corrects"));
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
  const about = await aboutOf(c, subject, sent.fields.get("corrects"));
  if (!about) return refuse(c, "estimate not issued");
  const typed: Typed = { fields: sent.fields, set: { chosen: sent.all("choose"), struck: sent.all("strike") } };
  if (sent.intent !== "record") return show(c, subject, about, typed);

  const at = reading(plainContext(about.input.asOf, subject.tongue, about.input.rateBook));
  const read = readAnswer(at, sent.fields);
  const errors = errorsIn(at);
  if (!read.by) errors.set("by", "Who answered: type the name; an answer without one is no record.");
  if (!read.recordedBy) errors.set("recordedBy", "Your name: type it; it goes on record with the answer.");
  if (about.corrects && !read.reason) errors.set("reason", "Why the record is corrected: say it in a few words.");
  const { by, recordedBy } = read;
  if (errors.size > 0 || !by || !recordedBy) return show(c, subject, about, typed, { errors });

  const outcome = await answering(c, uuidv7(), {
    ...read,
    ...typed.set,
    by,
    recordedBy,
    estimateId: about.estimate.id,
    contentHash: sent.fields.get("hash") ?? "",
    ...(about.corrects && { corrects: about.corrects.id }),
  });
  if (outcome.is === "recorded") return c.redirect(`/jobs/${subject.job.id}/answers?recorded`, 303);
  const [name, { detail, errors: faults = [] }] = answerRefused(outcome, subject.tongue);
  const refused = new Map(faults.map((fault) => [fieldAt(fault.pointer), fault.detail]));
  if (refused.size === 0) refused.set("", detail ?? ANSWERS[name].title);
  return show(c, subject, about, typed, { errors: refused, status: faults.length > 0 ? 422 : 409 });
});

answers.post("/jobs/:id/questions/:question/replies", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const sent = await sentForm(c);
  if (!sent) return refuse(c, "media type unsupported", NOT_A_FORM);
  const id = c.req.param("question");
  const asked = await questions.find(c.var.db, id);
  if (asked?.jobId !== subject.job.id) return refuse(c, "not found", { detail: "There is no such question." });
  const about = await aboutOf(c, subject, undefined);
  const at = reading(plainContext(about!.input.asOf, subject.tongue, about!.input.rateBook));
  const text = note(at, `reply.${id}`, sent.fields.get(`reply.${id}`));
  const by = line(at, `replier.${id}`, sent.fields.get(`replier.${id}`), 200);
  const errors = errorsIn(at);
  if (!text) errors.set(`reply.${id}`, "Write the reply first.");
  if (!by) errors.set(`replier.${id}`, "Type your name: the owner reads who replied.");
  const typed = about && blankOf(c, subject, about);
  if (!text || !by || errors.size > 0)
    return show(c, subject, about, typed && { ...typed, fields: new Map([...typed.fields, ...sent.fields]) }, { errors });
  await questions.reply(c.var.db, id, uuidv7(), { by, text }, c.var.clock().toISOString());
  return c.redirect(`/jobs/${subject.job.id}/answers?replied#questions`, 303);
});

/** The revision that can be answered now: the current one, or that of the record to be corrected. */
interface About {
  readonly estimate: Estimate;
  readonly input: EstimateInput;
  readonly records: readonly Agreement[];
  readonly corrects?: Agreement;
}

interface Typed {
  readonly fields: ReadonlyMap<string, string>;
  readonly set: AgreedSet;
}

async function aboutOf(
  c: Context<AppEnv>,
  { job, revisions }: JobSubject,
  corrects: string | undefined,
): Promise<About | undefined> {
  const records = await answersOf(c.var.db, job.id);
  const old = corrects === undefined ? undefined : records.find(({ id }) => id === corrects);
  const estimate = old ? revisions.find(({ id }) => id === old.estimateId) : revisions.findLast(({ issuedAt }) => issuedAt);
  if (!estimate) return undefined;
  const input = await estimates.inputOf(c.var.db, estimate);
  return { estimate, input, records, ...(old && { corrects: old }) };
}

function blankOf(c: Context<AppEnv>, subject: JobSubject, { estimate, corrects }: About): Typed {
  const { settings, owner } = subject;
  const now = c.var.clock();
  const time = new Intl.DateTimeFormat("en-GB", { hour: "2-digit", minute: "2-digit", timeZone: settings.timeZone }).format(now);
  return {
    fields: new Map([
      ["answer", corrects?.answer ?? "agreed"],
      ["channel", "telephone"],
      ["by", corrects?.by ?? owner?.name ?? ""],
      ["recordedBy", lastHand(subject)],
      ["spoken.date", today(now, settings.timeZone)],
      ["spoken.time", time],
      ["spoken.numberCalled", owner?.phone ?? ""],
    ]),
    set: corrects ?? { chosen: (estimate.sheet?.options ?? []).flatMap(({ id, chosen }) => (chosen ? [id] : [])), struck: [] },
  };
}

type ReadAnswer = Pick<Agreement, "answer" | "channel" | "reason" | "writing"> & {
  readonly by?: string | undefined;
  readonly recordedBy?: string | undefined;
  readonly spoken?: Partial<SpokenAgreement>;
};

function readAnswer(at: Reading, fields: ReadonlyMap<string, string>): ReadAnswer {
  const answer = ANSWERS_GIVEN.find((one) => one === fields.get("answer")) ?? "agreed";
  const wanted = fields.get("channel");
  const channel = wanted === "telephone" || wanted === "e-mail" ? wanted : "in person";
  const isSpoken = wanted === "telephone" || wanted === "in person";
  const by = line(at, "by", fields.get("by"), 200);
  const recordedBy = line(at, "recordedBy", fields.get("recordedBy"), 200);
  const writing = isSpoken ? undefined : line(at, "writing", fields.get("writing"));
  const reason = line(at, "reason", fields.get("reason"));
  const spoken = isSpoken && answer !== "declined" ? readSpoken(at, fields, by, recordedBy) : undefined;
  return { answer, channel, by, recordedBy, ...(writing && { writing }), ...(reason && { reason }), ...(spoken && { spoken }) };
}

/** Who agreed and who heard it are who answered and who records it, unless others are named. */
function readSpoken(
  at: Reading,
  fields: ReadonlyMap<string, string>,
  by?: string,
  recordedBy?: string,
): Partial<SpokenAgreement> {
  const read: Record<string, string | number> = {};
  for (const field of SPOKEN_FIELDS) {
    const name = `spoken.${field}`;
    const value = field === "additionalCost" ? money(at, name, fields.get(name)) : line(at, name, fields.get(name));
    if (value !== undefined) read[field] = value;
  }
  return { ...(by && { authoriser: by }), ...(recordedBy && { receiver: recordedBy }), ...read };
}

const fieldAt = (pointer: string): string =>
  pointer.startsWith("/spoken/")
    ? `spoken.${pointer.slice(8)}`
    : pointer === "/answer" || pointer === "/writing"
      ? pointer.slice(1)
      : "";

interface Shown {
  readonly errors?: ReadonlyMap<string, string>;
  readonly say?: string | undefined;
  readonly status?: 200 | 409 | 422;
}

async function show(
  c: Context<AppEnv>,
  subject: JobSubject,
  about: About | undefined,
  typed: Typed | undefined,
  { errors = new Map(), say, status = errors.size > 0 ? 422 : 200 }: Shown = {},
) {
  const { job, head, settings, tongue, revisions, when } = subject;
  const asked = await questions.ofJob(c.var.db, job.id);
  const records = about?.records ?? [];
  const corrected = new Set(records.map(({ corrects }) => corrects));
  const fields = typed?.fields ?? new Map<string, string>();
  const form = about && typed && canBeAnswered(about) ? await formOf(c, subject, about, typed, errors) : undefined;
  return pageAnswer(
    c,
    <AnswersPage
      frame={frameFor(c, settings.name)}
      job={head}
      tongue={tongue}
      answers={records.map((record) => rowOf(record, subject, !corrected.has(record.id))).reverse()}
      questions={asked.map(({ id, at, estimateId, text, replies }) => ({
        id,
        at: when(at),
        text,
        revision: revisions.find((revision) => revision.id === estimateId)?.revision ?? 0,
        replies: replies.map((reply) => ({ at: when(reply.at), by: reply.by, text: reply.text })),
      }))}
      fields={fields}
      errors={errors}
      say={say}
      {...(form && { form })}
    />,
    status,
  );
}

/** A second answer to a revision is a correction, and starts from the record it corrects. */
const canBeAnswered = ({ estimate, records, corrects }: About): boolean =>
  corrects !== undefined || !records.some(({ estimateId }) => estimateId === estimate.id);

async function formOf(
  c: Context<AppEnv>,
  { head, tongue, when }: JobSubject,
  { estimate, input, records, corrects }: About,
  { fields, set }: Typed,
  errors: ReadonlyMap<string, string>,
): Promise<AnswerFormProps> {
  const asTicked = pricedSet(input, set);
  const priced = "is" in asTicked ? pricedSet(input, { chosen: [], struck: [] }) : asTicked;
  if ("is" in priced) throw new Error("An issued estimate cannot be priced.");
  const profile = profileOf(input.policy?.profile);
  const earlier = await pricedAgreement(c.var.db, agreedTo(records, estimate.revision));
  const before = earlier ? measured(profile, earlier.sheet.totals) : 0;
  return {
    job: head,
    tongue,
    revision: estimate.revision,
    contentHash: estimate.contentHash,
    options: priced.sheet.options,
    work: strikeable(input).map((item) => ({ id: item.id, title: workTitle(item, input) })),
    chosen: set.chosen,
    struck: set.struck,
    total: priced.sheet.totals.total,
    additional: Math.max(0, measured(profile, priced.sheet.totals) - before),
    withTax: profile.taxCounts,
    fields,
    errors,
    ...(corrects && {
      corrects: {
        id: corrects.id,
        text: `revision ${corrects.revision}, ${corrects.answer} by ${corrects.by}, ${when(corrects.at)}.`,
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

function rowOf(record: Agreement, { when, tongue }: JobSubject, stands: boolean): AnswerRow {
  const { spoken, channel, corrects, at, ...rest } = record;
  return {
    ...rest,
    at: when(at),
    channel: CHANNEL[channel],
    correction: corrects !== undefined,
    stands,
    spoken: spoken
      ? SPOKEN_FIELDS.map((field) => [
          capital(spokenFieldText(field)),
          field === "additionalCost" ? cash(spoken.additionalCost, tongue) : spoken[field],
        ])
      : [],
  };
}
