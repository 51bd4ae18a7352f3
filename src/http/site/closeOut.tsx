/** Closing a job on its page: the form with the account as it would be, and what a closed job came to. */

import { type Context, Hono } from "hono";
import {
  accountOf,
  type Closing,
  closeJob,
  creditedBy,
  faultsOf,
  unloggedBy,
  untouchedBy,
  wrongIn,
} from "../../acts/closeJob.js";
import { saysOf } from "../../acts/field.js";
import { owed, paidUnrecorded } from "../../acts/owed.js";
import { fieldErrors, readForm, type Typed, typedFrom, typedWith } from "../../acts/readForm.js";
import { declinedIn, jobDone, neverIssued } from "../../acts/reckoning.js";
import { today } from "../../acts/today.js";
import { writeForm } from "../../acts/writeForm.js";
import { freightOf } from "../../estimating/closeout/account/margin.js";
import { nothingAgreed, usualBasis } from "../../estimating/closeout/account/terms.js";
import { foundByLog } from "../../estimating/closeout/jobDone.js";
import { tellsOpening, type WorkLog } from "../../estimating/closeout/log/workLog.js";
import type { CloseOut } from "../../estimating/closeout/variance/closeOut.js";
import type { EstimateInput } from "../../estimating/input.js";
import { ClosedPage } from "../../pages/closeout/closedPage.js";
import { CloseOutPage } from "../../pages/closeout/closeOutPage.js";
import type { WorkRow } from "../../pages/closeout/closeOutParts.js";
import { type CloseOutRecord, closeOuts } from "../../records/closeOuts.js";
import { money } from "../../wording/figures.js";
import { declinedTexts, workTitle } from "../../wording/line.js";
import { listed } from "../../wording/list.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { type Again, fieldsOf, fresh, NOT_A_FORM, pageDoor, sentForm } from "../doors/page.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { pdfAnswer } from "../papers/pdfAnswer.js";
import { refuse } from "../problems/refuse.js";
import { closedMeanwhile, isClosedMeanwhile } from "./closedMeanwhile.js";
import { unsaidOpened } from "./handBack.js";
import { type JobSubject, jobSubject, lastHand, NO_JOB } from "./jobSubject.js";

export const closeOut = new Hono<AppEnv>();

closeOut.get("/jobs/:id/close-out", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const { closeOut: standing } = subject.stands;
  if (standing && c.req.query("correct") === undefined) return closed(c, subject, standing);
  if (standing ? !standing.result.closeOut : declinedIn(subject.stands) || neverIssued(subject.stands))
    return c.redirect(`/jobs/${subject.job.id}/hand-back${standing ? "?correct" : ""}`, 303);
  if (!subject.stands.agreed()) return refuse(c, "nothing agreed");
  const value = standing ? asClosed(standing, subject) : await firstValue(c, subject);
  const form = fresh(closeJob, Object.fromEntries(writeForm(closeJob.fields, value, subject.tongue)));
  return show(c, subject, { ...form, found: value.found ?? [] }, value as Closing);
});

closeOut.post("/jobs/:id/close-out", async (c) => {
  const typed = await sentForm(c);
  if (!typed) return refuse(c, "media type unsupported", NOT_A_FORM);
  const desk = deskOf(c);
  const subject = await jobSubject(c, c.req.param("id"), desk);
  if (!subject) return refuse(c, "not found", NO_JOB);
  const { stands, tongue } = subject;
  if (!stands.agreed()) return refuse(c, "nothing agreed");
  const read = readForm(closeJob.fields, typed, { ...tongue, hand: subject.hand });
  const found = typed.all("found");
  const unsaid = unsaidOpened(typed);
  if (typed.get("intent") !== "close" && isClosedMeanwhile(stands, typed)) return showLate(c, subject, typed);
  if (typed.get("intent") === "close")
    return pageDoor(c, closeJob, {
      on: { job: subject.job.id },
      ...(unsaid && { said: unsaid }),
      tongue,
      desk,
      done: () => `/jobs/${subject.job.id}/close-out?closed`,
      show: async (again) => {
        const now = (again.refusal && (await jobSubject(c, subject.job.id))) ?? subject;
        return isClosedMeanwhile(now.stands, typed)
          ? showLate(c, now, typed)
          : show(c, now, { ...again, found }, read.ok ? read.value : undefined);
      },
    });
  const form = { ...fresh(closeJob), fields: fieldsOf(typed), found };
  if (!read.ok) return show(c, subject, { ...form, errors: read.errors, status: 422 });
  const wrong = wrongIn(stands, read.value);
  const { reckoned } = accountOf(stands, read.value)!;
  const faults = [...wrong, ...(reckoned.ok ? [] : faultsOf(reckoned))].filter(({ pointer }) => !pointer.startsWith("/log"));
  const errors = fieldErrors(faults, closeJob.fields, read.rows);
  return show(c, subject, { ...form, errors, ...(errors.size > 0 && { status: 422 }) }, read.value);
});

closeOut.get("/jobs/:id/final-account.pdf", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  const standing = subject?.stands.closeOut;
  const bytes = standing && (await closeOuts.pdf(c.var.db, standing.id));
  if (!subject || !bytes?.length) return refuse(c, "not found", { detail: "There is no such job, or it is not closed." });
  return pdfAnswer(c, { bytes, warnings: [] }, `final-account-${subject.job.number}`);
});

/** Sent after somebody else closed or corrected it. */
async function showLate(c: Context<AppEnv>, subject: JobSubject, typed: Typed) {
  const { stands, tongue } = subject;
  const made = stands.closeOuts.find(({ id }) => id === typed.get("corrects"));
  const [record, drawn] = [asClosed(stands.closeOut!, subject), made ? asClosed(made, subject) : await firstValue(c, subject)];
  const textsOf = (value: Partial<Closing>) => writeForm(closeJob.fields, value, tongue);
  const form = closedMeanwhile({
    ...{ job: stands, typed, says: saysOf(closeJob.fields), record: textsOf(record), drawn: textsOf(drawn) },
    found: { record: record.found ?? [], drawn: drawn.found ?? [] },
  });
  const read = readForm(
    closeJob.fields,
    typedWith(typedFrom(new URLSearchParams([...form.fields])), { found: form.found }),
    tongue,
  );
  return show(c, subject, form, read.ok ? read.value : (record as Closing));
}

/** What can be known beforehand; what an hour costs is as in the job closed last. */
async function firstValue(c: Context<AppEnv>, subject: JobSubject): Promise<Partial<Closing>> {
  const { stands, settings } = subject;
  const { input } = stands.agreed()!;
  const [last] = await closeOuts.newest(c.var.db, 1);
  const perHour = last?.basis.costs?.otherwise;
  const prepaid = paidUnrecorded(stands)?.amount;
  return {
    by: lastHand(subject),
    closedOn: today(c.var.clock(), settings.timeZone),
    basis: usualBasis(input),
    done: Object.fromEntries(
      input.items.flatMap(({ id, count }) => ((stands.done[id] ?? count) < count ? [[id, stands.done[id]!]] : [])),
    ),
    warrantyDays: settings.warrantyDays,
    oldParts: { is: "returned" },
    ...(perHour !== undefined && { costs: { otherwise: perHour } }),
    // What the estimate counted as paid already: the account credits it once the day it came is given.
    ...(prepaid !== undefined && { payments: [{ amount: prepaid, for: "other" }] as unknown as Closing["payments"] & {} }),
  };
}

/** As it was closed, to be corrected. */
function asClosed(record: CloseOutRecord, { hand, stands, settings }: JobSubject): Partial<Closing> {
  const { id, by, basis: closedWith } = record;
  const { terms, found, done, untimed = {}, unlogged, costs } = closedWith;
  const { on, basis, payments: __, limit: _, handBack: went, lookingWaived, agreedThen: then, ...rest } = terms;
  const nothingDone = basis === "nothing done";
  const said = untouchedBy(stands, { found: [...found], done }).flatMap(({ item: { id: item } }) => {
    const how = untimed[item];
    return how ? [[item, how === "done" ? ("done, not timed" as const) : how] as const] : [];
  });
  return {
    ...{
      ...rest,
      ...(nothingDone && { warrantyDays: settings.warrantyDays, looking: lookingWaived ? "waived" : "charged" }),
      ...(then && { agreedThen: then.charged ? ("charged" as const) : ("let go" as const) }),
      ...(went?.opened === false && { opened: "no" as const }),
      ...(!nothingAgreed(basis) && !nothingDone && { basis }),
      by: hand ?? by,
      closedOn: on,
      payments: creditedBy(stands, record),
      found: [...found],
      done,
      ...(unloggedBy(stands, { found: [...found], done }).length > 0 && { unlogged: unlogged ? "as planned" : "none used" }),
      ...(said.length > 0 && { untouched: { each: Object.fromEntries(said) } }),
      corrects: id,
    },
    ...(costs && { costs: { freight: 0, ...costs, other: [...costs.other] } }),
  };
}

type Shown = Pick<Again, "fields" | "errors" | "says"> & Partial<Again> & { readonly found: readonly string[] };

/** `value`: what the account is reckoned from; a form that cannot be read still shows what was logged. */
async function show(
  c: Context<AppEnv>,
  subject: JobSubject,
  { fields, errors, says, found, status }: Shown,
  value?: Partial<Closing>,
) {
  const { head, settings, tongue, stands } = subject;
  const { sheet, input } = stands.agreed()!;
  const { reckoned, toClose } = accountOf(stands, {
    ...(value ?? (await firstValue(c, subject))),
    payments: datedIn(value),
  } as Closing)!;
  const partial = reckoned.ok ? reckoned.result : reckoned.partial;
  const faults = reckoned.ok ? [] : faultsOf(reckoned).filter(({ pointer }) => pointer.startsWith("/log"));
  const logged = foundByLog(input, toClose.done.log);
  const { ifDeclined } = sheet;
  // What agreeing credits was asked for only in case of a refusal.
  const feeAsked = ifDeclined.diagnosis > 0 && !input.rateBook.fees.diagnosis.creditedOnAgreement;
  const unrecorded = paidUnrecorded(stands) ?? { amount: 0, counts: false };
  const corrects = stands.closeOut?.id;
  return pageAnswer(
    c,
    <CloseOutPage
      frame={frameFor(c, settings.name)}
      job={head}
      tongue={tongue}
      says={says}
      fields={fields}
      errors={new Map([...errors].filter(([field]) => !field.startsWith("log.")))}
      work={partial?.closeOut ? workRows(partial.closeOut, input, stands.done, toClose.done.log) : []}
      untouched={untouchedBy(stands, { found: [...found], ...(value?.done && { done: value.done }) })
        .filter(({ how }) => how === undefined)
        .map(({ item }) => ({ id: item.id, title: workTitle(item, input) }))}
      unlogged={unloggedBy(stands, { found: [...found], ...(value?.done && { done: value.done }) }).map((item) =>
        workTitle(item, input),
      )}
      opening={partial?.closeOut ? openingOf(partial.closeOut) : { allowed: 0, logged: 0 }}
      possible={sheet.ifFound.map(({ id, names }) => ({
        ...{ id, title: listed(names) },
        ...{ logged: logged.includes(id), ticked: stands.found().includes(id) },
      }))}
      found={found}
      logFaults={[...new Set(faults.map(({ detail }) => detail))]}
      unnamedParts={stands.entries.filter(({ parts }) => parts !== undefined).length}
      freight={freightOf(sheet)}
      toPay={{
        deposit: sheet.deposit.amount,
        diagnosis: feeAsked ? declinedTexts(ifDeclined, input.rateBook.tax, tongue).diagnosis : undefined,
        prepaid: unrecorded.amount,
        recorded: owed(stands).paid - (unrecorded.counts ? unrecorded.amount : 0),
      }}
      {...(value && partial?.account && { account: partial.account })}
      asksOpened={partial?.account?.basis === "nothing done" && partial.account.limit.upTo > 0 && !tellsOpening(stands.log())}
      {...(corrects && { corrects })}
    />,
    status,
  );
}

/** A payment whose day is still to be given counts as of the day of closing, so that the account says the same as the job's page. */
const datedIn = ({ payments = [], closedOn }: Partial<Closing> = {}) =>
  payments.map((each) => ({ ...each, on: each.on ?? closedOn }));

/** What is logged; work that nobody timed has none, whatever it is reckoned at. */
function workRows({ rows }: CloseOut, input: EstimateInput, ticked: Readonly<Record<string, number>>, log: WorkLog): WorkRow[] {
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
        logged: sum(({ minutes, untimed }) => (untimed ? 0 : minutes?.actual)),
        pieces: sum(({ pieces }) => pieces?.allowed),
        used: log.parts.reduce((total, part) => total + (part.item === item.id ? part.count : 0), 0),
      };
    });
}

const openingOf = ({ rows }: CloseOut) => {
  const own = rows.filter(({ category }) => category === "access");
  const sum = (each: typeof own, of: "allowed" | "actual") =>
    each.reduce((total, { minutes }) => total + (minutes?.[of] ?? 0), 0);
  return {
    allowed: sum(own, "allowed"),
    logged: sum(
      own.filter(({ untimed }) => !untimed),
      "actual",
    ),
  };
};

function closed(c: Context<AppEnv>, { stands, head, settings, tongue, when }: JobSubject, standing: CloseOutRecord) {
  const { closeOut: compared, account, margin, planned } = standing.result;
  const job = jobDone(stands, standing.basis);
  const names = job.revisions.map(({ input }) => input).concat(job.current ?? []);
  const items = new Map(names.flatMap(({ items: own }) => own.map((item) => [item.id, item] as const)));
  return pageAnswer(
    c,
    <ClosedPage
      frame={frameFor(c, settings.name)}
      job={head}
      tongue={tongue}
      closedOn={standing.closedOn}
      logChanged={stands.changedAfterClosing}
      by={standing.by}
      account={account}
      owed={owed(stands)}
      input={{ ...job.revisions.at(-1)!.input, items: [...items.values()] }}
      before={stands.closeOuts
        .filter(({ id }) => id !== standing.id)
        .map(({ at, by, result }) => ({ at: when(at), by, total: money(result.account.totals.total, tongue) }))}
      say={c.req.query("closed") === undefined ? undefined : "The job is closed. The final account is kept as it is."}
      {...(compared && { closeOut: compared })}
      {...(margin && { margin })}
      {...(planned && { planned })}
      {...(standing.reason && { reason: standing.reason })}
    />,
  );
}
