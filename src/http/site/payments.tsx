/** Payments of a job on their page, each with its receipt. */

import { type Context, Hono } from "hono";
import { type Owed, owed, paidUnrecorded } from "../../acts/owed.js";
import { declinedIn } from "../../acts/reckoning.js";
import { takePayment, withdrawPayment } from "../../acts/takePayment.js";
import { today } from "../../acts/today.js";
import { writeForm } from "../../acts/writeForm.js";
import { receiptPdf } from "../../documents/receiptPdf.js";
import { nothingAgreed } from "../../estimating/closeout/account/terms.js";
import type { Minor } from "../../estimating/input.js";
import { PaymentsPage } from "../../pages/closeout/paymentsPage.js";
import type { AskedForm } from "../../pages/frame/ask.js";
import type { PaymentValue } from "../../records/payments.js";
import { shortHead } from "../../records/trail.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { logoOf } from "../doors/logo.js";
import { fresh, pageDoor } from "../doors/page.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { pdfAnswer } from "../papers/pdfAnswer.js";
import { refuse } from "../problems/refuse.js";
import { type JobSubject, jobSubject, lastHand, NO_JOB } from "./jobSubject.js";
import { owedShown } from "./standing.js";

export const payments = new Hono<AppEnv>();
const at = "/jobs/:id/payments";
type Form = AskedForm & { readonly status?: 404 | 409 | 422 };

payments.get(at, async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  return subject ? show(c, subject, { withdrawing: c.req.query("withdraw") }) : refuse(c, "not found", NO_JOB);
});

payments.post(at, async (c) => {
  const desk = deskOf(c);
  const subject = await jobSubject(c, c.req.param("id"), desk);
  if (!subject) return refuse(c, "not found", NO_JOB);
  return pageDoor(c, takePayment, {
    ...{ on: { job: subject.job.id }, tongue: subject.tongue, desk },
    done: () => `/jobs/${subject.job.id}/payments?recorded`,
    show: (form) => show(c, subject, { form }),
  });
});

payments.post(`${at}/:payment/withdrawal`, async (c) => {
  const desk = deskOf(c);
  const subject = await jobSubject(c, c.req.param("id"), desk);
  if (!subject) return refuse(c, "not found", NO_JOB);
  const payment = c.req.param("payment");
  return pageDoor(c, withdrawPayment, {
    ...{ on: { job: subject.job.id, payment }, tongue: subject.tongue, desk },
    done: () => `/jobs/${subject.job.id}/payments?withdrawn`,
    show: (withdrawal) => show(c, subject, { withdrawal, withdrawing: payment }),
  });
});

payments.get(`${at}/:payment/receipt.pdf`, async (c) => {
  const stands = (await jobSubject(c, c.req.param("id")))?.stands;
  const payment = stands?.payments.find(({ id, withdrawal }) => id === c.req.param("payment") && !withdrawal);
  const paper = stands?.revisions.findLast(({ sheet }) => sheet !== undefined);
  if (!stands || !payment || !paper?.sheet) return refuse(c, "not found", NO_RECEIPT);
  const input = stands.inputOf(paper);
  const paperwork = { ...input.paperwork, chainHead: shortHead(stands.head) };
  const logo = await logoOf(c.var.db, paperwork);
  const dated = { ...input, paperwork: { ...paperwork, number: stands.job.number, date: payment.on } };
  return pdfAnswer(
    c,
    await receiptPdf(payment, { sheet: paper.sheet, input: dated }, { logo, due: owed(stands).due }),
    `receipt-${stands.job.number}-${payment.on}`,
  );
});

const NO_RECEIPT = {
  detail: "There is no such payment, it is withdrawn, or the job has no estimate whose paper it could be on.",
};

/** What is known to be owed now; the balance of a job that goes on may still change. */
const usualAmount = ({ closedOn }: JobSubject["stands"], { due = 0, deposit }: Owed): Minor =>
  deposit || (closedOn === undefined ? 0 : Math.abs(due));

/** What the next payment is most likely for. */
function usualFor(job: JobSubject["stands"], { due = 0, deposit }: Owed): PaymentValue["for"] {
  if (deposit > 0) return "deposit";
  if (due < 0) return "refund";
  const { basis } = job.closeOut?.basis.terms ?? {};
  return (basis ? nothingAgreed(basis) : declinedIn(job)) ? "decline fee" : "balance";
}

/** What was paid before there was an estimate: as a rule for looking, on the day the unit came in. */
const beforehand = (amount: number, { stands, tongue }: JobSubject) => ({
  ...{ for: "diagnosis fee", on: stands.job.arrivedOn },
  amount: writeForm(takePayment.fields, { amount }, tongue).get("amount"),
});

const SAID = [
  ["recorded", "The payment is recorded."],
  ["withdrawn", "The payment is withdrawn; the trail tells of it."],
] as const;

async function show(
  c: Context<AppEnv>,
  subject: JobSubject,
  {
    form,
    withdrawal,
    withdrawing,
  }: { readonly form?: Form; readonly withdrawal?: Form; readonly withdrawing?: string | undefined },
) {
  const { stands, head, settings, tongue } = subject;
  const money = owed(stands);
  const by = lastHand(subject);
  const unrecorded = paidUnrecorded(stands);
  const known = {
    ...{ by, on: today(c.var.clock(), settings.timeZone) },
    for: usualFor(stands, money),
  };
  const first = unrecorded && c.req.query("unrecorded") !== undefined ? beforehand(unrecorded.amount, subject) : {};
  const amount = usualAmount(stands, money);
  const usual = amount > 0 ? Object.fromEntries(writeForm(takePayment.fields, { amount }, tongue)) : {};
  return pageAnswer(
    c,
    <PaymentsPage
      frame={frameFor(c, settings.name)}
      job={head}
      tongue={tongue}
      form={form ?? fresh(takePayment, { ...known, ...usual, ...first })}
      withdrawal={withdrawal ?? fresh(withdrawPayment, { by })}
      withdrawing={withdrawing}
      payments={stands.payments}
      owed={owedShown(stands)}
      unrecorded={unrecorded}
      receipts={stands.revisions.some(({ sheet }) => sheet !== undefined)}
      say={SAID.find(([name]) => c.req.query(name) !== undefined)?.[1]}
    />,
    (form ?? withdrawal)?.status,
  );
}
