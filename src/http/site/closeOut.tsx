/** Closing a job on its page: the form with the account as it would be, and what a closed job came to. */
import { type Context, Hono } from "hono";
import { uuidv7 } from "uuidv7";
import { today } from "../../acts/today.js";
import { usualBasis } from "../../estimating/closeout/account/terms.js";
import { foundByLog } from "../../estimating/closeout/jobDone.js";
import type { CloseOut } from "../../estimating/closeout/variance/closeOut.js";
import type { EstimateInput, Minor } from "../../estimating/input.js";
import { ClosedPage } from "../../pages/closeout/closedPage.js";
import { type CloseForm, fieldAt, fieldsOf, prepaidFields, readClose } from "../../pages/closeout/closeFields.js";
import { CloseOutPage } from "../../pages/closeout/closeOutPage.js";
import type { WorkRow } from "../../pages/closeout/closeOutParts.js";
import { reading } from "../../pages/form/reading.js";
import { plainContext } from "../../pages/revise/smallForm.js";
import { amountsOnly, doneCounts } from "../../records/benchLog.js";
import { changedAfterClosing } from "../../records/closed.js";
import { type CloseOutRecord, closeOuts } from "../../records/closeOuts.js";
import { jobDoneOf, reckon, toClose } from "../../records/reckoning.js";
import { type Agreed, standingOf } from "../../records/standing.js";
import { money } from "../../wording/figures.js";
import { workTitle } from "../../wording/line.js";
import { listed } from "../../wording/list.js";
import { problemText } from "../../wording/problem.js";
import type { Tongue } from "../../wording/tongue.js";
import type { AppEnv } from "../bindings.js";
import { beforeAgreedText, closeRefused, closing } from "../closing.js";
import { pdfAnswer } from "../pdfAnswer.js";
import { refuse } from "../problems/refuse.js";
import { frameFor, pageAnswer } from "./frame.js";
import { type JobSubject, jobSubject, lastHand, NO_JOB } from "./jobSubject.js";
import { NOT_A_FORM, sentForm } from "./sentForm.js";

export const closeOut = new Hono<AppEnv>();

closeOut.get("/jobs/:id/close-out", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const records = await closeOuts.ofJob(c.var.db, subject.job.id);
  const standing = await closeOuts.standing(c.var.db, subject.job.id);
  if (standing && c.req.query("correct") === undefined) return closed(c, subject, standing, records);
  const open = await openOf(c, subject, standing);
  if (!open) return refuse(c, "nothing agreed");
  const form = standing ? formOf(standing, c.var.staff?.name) : await firstForm(c, open);
  const { currency, locale } = subject.tongue;
  const prepaid = standing ? [] : prepaidFields(open.input.policy?.prepaid ?? 0, currency, locale);
  return show(c, open, new Map([...fieldsOf(form, currency, locale), ...prepaid]), form.found, form);
});

closeOut.post("/jobs/:id/close-out", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const sent = await sentForm(c);
  if (!sent) return refuse(c, "media type unsupported", NOT_A_FORM);
  const { db } = c.var;
  const { id: jobId } = subject.job;
  const { fields, intent } = sent;
  const corrects = fields.get("corrects");
  const standing = await closeOuts.standing(db, jobId);
  if (standing && standing.id !== corrects)
    return standing.id === fields.get("token")
      ? c.redirect(`/jobs/${jobId}/close-out`, 303)
      : refuse(c, ...closeRefused({ is: "closed already", current: standing }));
  const open = await openOf(c, subject, standing);
  if (!open) return refuse(c, "nothing agreed");

  const at = reading(plainContext(open.input.asOf, subject.tongue, open.input.rateBook));
  const found = sent.all("found");
  const { form: read, errors } = readClose(at, fields, found, open.input.items);
  const form = read && withPerHour(read, standing);
  if (standing && !form?.reason && !errors.has("reason") && intent === "close")
    errors.set("reason", "Why it is corrected: say it for the record.");
  if (!form || errors.size > 0 || intent !== "close") return show(c, open, fields, found, form, errors);

  const outcome = await closing(c, jobId, {
    ...{ id: tokenOf(fields), overrideId: uuidv7(), corrects },
    ...form,
    ...(fields.get("seen") && { seen: Number(fields.get("seen")) }),
  });
  switch (outcome.is) {
    case "closed":
      return c.redirect(`/jobs/${jobId}/close-out?closed`, 303);
    case "unready":
      return show(c, open, fields, found, form, errors);
    case "before agreed":
      return show(c, open, fields, found, form, new Map([["closedOn", beforeAgreedText(outcome.agreedOn)]]));
    case "moved":
      return show(c, open, fields, found, form, new Map([["", movedText(fields, outcome.total, subject.tongue)]]), 409);
    default:
      return refuse(c, ...closeRefused(outcome));
  }
});

closeOut.get("/jobs/:id/final-account.pdf", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  const standing = subject && (await closeOuts.standing(c.var.db, subject.job.id));
  const bytes = standing && (await closeOuts.pdf(c.var.db, standing.id));
  if (!subject || !bytes?.length) return refuse(c, "not found", { detail: "There is no such job, or it is not closed." });
  return pdfAnswer(c, { bytes, warnings: [] }, `final-account-${subject.job.number}`);
});

interface Open {
  readonly subject: JobSubject;
  readonly agreed: Agreed;
  readonly input: EstimateInput;
  readonly standing: CloseOutRecord | undefined;
}

async function openOf(c: Context<AppEnv>, subject: JobSubject, standing: CloseOutRecord | undefined): Promise<Open | undefined> {
  const agreed = (await standingOf(c.var.db, subject.job.id))?.agreed;
  return agreed && { subject, agreed, input: agreed.input, standing };
}

/** What can be known beforehand; what an hour costs is as in the job closed last. */
async function firstForm(c: Context<AppEnv>, { subject, input }: Open): Promise<CloseForm> {
  const [[last], done] = [await closeOuts.newest(c.var.db, 1), await doneCounts(c.var.db, subject.job.id)];
  const perHour = last?.basis.costs?.otherwise;
  return {
    by: c.var.staff?.name ?? lastHand(subject),
    found: [],
    done: Object.fromEntries(input.items.flatMap(({ id, count }) => ((done[id] ?? count) < count ? [[id, done[id]!]] : []))),
    ...(perHour !== undefined && { costs: { perHour: {}, otherwise: perHour, other: [] } }),
    terms: {
      basis: usualBasis(input),
      on: today(c.var.clock(), subject.settings.timeZone),
      payments: [],
      warrantyDays: subject.settings.warrantyDays,
      oldParts: { is: "returned" },
    },
  };
}

const formOf = ({ by, basis: { terms, found, done, costs } }: CloseOutRecord, staff = by): CloseForm => ({
  ...{ by: staff, terms, found, done },
  ...(costs && { costs }),
});

/** What the hours of each person cost is told by programs alone; a correction by the page keeps it. */
const withPerHour = ({ costs, ...form }: CloseForm, standing: CloseOutRecord | undefined): CloseForm => ({
  ...form,
  ...(costs && { costs: { ...costs, perHour: standing?.basis.costs?.perHour ?? {} } }),
});

const movedText = (fields: ReadonlyMap<string, string>, total: Minor, tongue: Tongue): string =>
  `The total moved from ${money(Number(fields.get("seen")), tongue)} to ${money(total, tongue)} since the account was shown. Nothing is closed yet: look at it again.`;

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;
const tokenOf = (fields: ReadonlyMap<string, string>): string =>
  UUID.test(fields.get("token") ?? "") ? fields.get("token")! : uuidv7();

async function show(
  c: Context<AppEnv>,
  open: Open,
  sent: ReadonlyMap<string, string>,
  found: readonly string[],
  form: CloseForm | undefined,
  errors: Map<string, string> = new Map(),
  wrong: 409 | 422 = 422,
) {
  const { subject, agreed, input, standing } = open;
  const { head, settings, tongue, job } = subject;
  const { db } = c.var;
  // A form that cannot be read still shows what was logged.
  const ready = (await toClose(db, job.id, form ?? (await firstForm(c, open))))!;
  const reckoned = reckon(ready.job, ready.basis);
  const partial = reckoned.ok ? reckoned.result : reckoned.partial;
  const logFaults = new Set<string>();
  for (const problem of reckoned.ok ? [] : reckoned.problems) {
    const field = fieldAt(problem.pointer);
    if (field === "") logFaults.add(problemText(problem));
    else if (!errors.has(field)) errors.set(field, problemText(problem));
  }
  const ticked = await doneCounts(db, job.id);
  const logged = foundByLog(input, ready.job.log);
  const fields = new Map(sent);
  if (!fields.has("token")) fields.set("token", uuidv7());
  const fee = agreed.sheet.lines.filter(({ sort, amount }) => sort === "fee" && amount > 0);
  return pageAnswer(
    c,
    <CloseOutPage
      frame={frameFor(c, settings.name)}
      job={head}
      tongue={tongue}
      fields={fields}
      errors={errors}
      work={partial?.closeOut ? workRows(partial.closeOut, input, ticked) : []}
      opening={partial?.closeOut ? openingOf(partial.closeOut) : { allowed: 0, logged: 0 }}
      possible={agreed.sheet.ifFound.map(({ id, names }) => ({ id, title: listed(names), logged: logged.includes(id) }))}
      found={found}
      logFaults={[...logFaults]}
      unnamedParts={(await amountsOnly(db, job.id)).length}
      freight={agreed.sheet.adjustments.reduce((sum, { sort, amount }) => sum + (sort === "freight" ? amount : 0), 0)}
      toPay={{
        deposit: agreed.sheet.deposit.amount,
        diagnosis: fee.reduce((sum, { amount }) => sum + amount, 0),
        prepaid: input.policy?.prepaid ?? 0,
      }}
      {...(form && partial?.account && { account: partial.account })}
      {...(standing && { corrects: standing.id })}
    />,
    errors.size > 0 ? wrong : 200,
  );
}

function workRows({ rows }: CloseOut, input: EstimateInput, ticked: Readonly<Record<string, number>>): WorkRow[] {
  return input.items
    .filter(({ count, certainty }) => count > 0 && (certainty.is !== "optional" || certainty.chosen))
    .map((item) => {
      const own = rows.filter((row) => row.item === item.id);
      const sum = (of: (row: CloseOut["rows"][number]) => number | undefined) =>
        own.reduce((total, row) => total + (of(row) ?? 0), 0);
      return {
        id: item.id,
        title: workTitle(item, input),
        count: item.count,
        ...(ticked[item.id] !== undefined && { ticked: ticked[item.id]! }),
        allowed: sum(({ minutes }) => minutes?.allowed),
        logged: sum(({ minutes }) => minutes?.actual),
        pieces: sum(({ pieces }) => pieces?.allowed),
        used: sum(({ pieces }) => pieces?.actual),
      };
    });
}

const openingOf = ({ rows }: CloseOut) => {
  const own = rows.filter(({ category }) => category === "access");
  const sum = (of: "allowed" | "actual") => own.reduce((total, { minutes }) => total + (minutes?.[of] ?? 0), 0);
  return { allowed: sum("allowed"), logged: sum("actual") };
};

async function closed(c: Context<AppEnv>, subject: JobSubject, standing: CloseOutRecord, records: readonly CloseOutRecord[]) {
  const { head, settings, tongue, when } = subject;
  const { closeOut: compared, account, margin, planned } = standing.result;
  const job = await jobDoneOf(c.var.db, standing.basis);
  const names = job.revisions.map(({ input }) => input).concat(job.current ?? []);
  const items = new Map(names.flatMap(({ items: own }) => own.map((item) => [item.id, item] as const)));
  return pageAnswer(
    c,
    <ClosedPage
      frame={frameFor(c, settings.name)}
      job={head}
      tongue={tongue}
      closedOn={standing.closedOn}
      logChanged={await changedAfterClosing(c.var.db, standing.jobId)}
      by={standing.by}
      closeOut={compared}
      account={account}
      input={{ ...job.revisions.at(-1)!.input, items: [...items.values()] }}
      before={records
        .filter(({ id }) => id !== standing.id)
        .map(({ at, by, result }) => ({ at: when(at), by, total: money(result.account.totals.total, tongue) }))}
      say={c.req.query("closed") === undefined ? undefined : "The job is closed. The final account is kept as it is."}
      {...(margin && { margin })}
      {...(planned && { planned })}
      {...(standing.reason && { reason: standing.reason })}
    />,
  );
}
