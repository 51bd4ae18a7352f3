/** Money taken or given back on a job, on any day of it; a wrong one is withdrawn, and typed anew. */
import { z } from "zod";
import type { Minor } from "../estimating/input.js";
import { daysBetween } from "../estimating/parts/catalogue.js";
import { tellingOf } from "../records/keptOnce.js";
import {
  HOW_PAID,
  type Payment,
  type PaymentValue,
  type PaymentWithdrawal,
  paymentsTable,
  paymentWithdrawalsTable,
} from "../records/payments.js";
import { money as cash } from "../wording/figures.js";
import { day as dayText } from "../wording/time.js";
import { act, type Desk, refused, wrongField } from "./act.js";
import { choice, day, hand, line, maybe, money, note, tick } from "./field.js";
import { handOf } from "./hand.js";
import type { JobAsItStands } from "./job.js";
import type { OnJob } from "./logWork.js";
import { owed } from "./owed.js";
import { keptOnce } from "./shapes/primitives.js";
import { today } from "./today.js";

const WHO = "Your name";
export const PAID_FOR = ["deposit", "balance", "diagnosis fee", "decline fee", "other"] as const;
export const howPaid = choice("How", HOW_PAID);
const paymentKeys = {
  for: choice("For", [...PAID_FOR, "refund"]).meta({ description: "A refund is given back" }),
  amount: money("Amount", { hint: "Tax included." }).meta({ description: "Above 0; integer minor units of the job's currency" }),
  on: day("Day"),
  how: howPaid,
  note: maybe(line("Note")),
};
const by = line(WHO, { most: 200 });
const keptPaymentKeys = { ...keptOnce, ...paymentKeys, by };
const keptWithdrawal = z
  .strictObject({ ...keptOnce, paymentId: z.string(), by, reason: z.string() })
  .meta({ id: "PaymentWithdrawalRecord" });
export const listedPayment = z
  .strictObject({
    ...keptPaymentKeys,
    withdrawal: maybe(keptWithdrawal).meta({ description: "The payment was wrong and no longer counts" }),
  })
  .meta({ id: "PaymentListed" });

export const takePayment = act({
  name: "addPayment",
  title: "Record a payment",
  fields: z
    .strictObject({
      ...paymentKeys,
      by: hand(WHO),
      beyond: maybe(tick("Record it though it is more than is awaited or owed, than was paid, or on record already")).meta({
        description: "Without it such an amount is refused, and so is the same one for the same within a day",
      }),
    })
    .meta({ id: "Payment" }),
  answer: z.strictObject(keptPaymentKeys).meta({ id: "PaymentRecord" }),
  decide: async (desk, { by: named, beyond = false, ...value }, on: OnJob) => {
    const job = await desk.job(on.job);
    if (!job) return NO_JOB;
    const who = handOf(desk, named, WHO);
    if ("refused" in who) return who;
    if (value.amount === 0)
      return wrongField("/amount", "number out of range", "Amount: give more than 0; money given back is a refund.");
    if (value.on > today(desk.now, job.settings.timeZone))
      return wrongField("/on", "day ahead", "Day: a payment is recorded when it was made, not before.");
    const over = beyond ? undefined : overpaid(job, value);
    if (over) return wrongField("/amount", "more than owed", over);
    const twice = beyond ? undefined : onRecord(job, value);
    if (twice) return wrongField("/amount", "paid already", twice);
    const taken = await taking(desk, job.id, { ...value, by: who.by });
    return { answer: taken.record, writes: [taken.write], trail: { job: job.id, head: job.head, events: [taken.event] } };
  },
});

/** Asked about once: more than is owed, than is awaited of the deposit, or than is to be given back. */
function overpaid(job: JobAsItStands, { for: what, amount }: Pick<PaymentValue, "for" | "amount">): string | undefined {
  const { paid, due, deposit } = owed(job);
  const room = (most: Minor) => (amount > most ? cash(Math.max(0, most), job.tongue) : undefined);
  if (what === "refund") {
    const [had, back] = [room(paid), room(due === undefined ? paid : -due)];
    if (had) return `Amount: ${had} was paid, and more cannot be given back; tick the box below if it was.`;
    return back && `Amount: ${back} is to be given back; tick the box below if more was.`;
  }
  const rest = due === undefined ? undefined : room(due);
  if (rest) return `Amount: ${rest} is still to pay; tick the box below if more was paid.`;
  const awaited = what === "deposit" && job.agreed() && !job.closeOut ? room(deposit) : undefined;
  return awaited && `Amount: ${awaited} is still awaited of the deposit; tick the box below if more was paid.`;
}

/** Asked about once: the same sum for the same, of the same day or the one beside it. */
export function onRecord(
  { payments, tongue }: JobAsItStands,
  value: Pick<PaymentValue, "for" | "amount" | "on">,
): string | undefined {
  const same = payments.find(
    ({ withdrawal, for: what, amount, on }) =>
      !withdrawal && what === value.for && amount === value.amount && Math.abs(daysBetween(on, value.on)) <= 1,
  );
  return (
    same &&
    `Amount: ${same.for} of ${cash(same.amount, tongue)} is on record of ${dayText(same.on, tongue.locale)} already; tick the box below if it was ${same.for === "refund" ? "given" : "paid"} again.`
  );
}

/** A payment with what goes on record of it. */
export async function taking({ db, at, newId }: Desk, jobId: string, value: PaymentValue) {
  const record: Payment = { ...value, id: newId(), jobId, at };
  const event = { is: "payment recorded" as const, content: { by: value.by, record: await tellingOf("payments", record) } };
  return { record, write: db.insert(paymentsTable).values(record), event };
}

export const withdrawPayment = act({
  name: "withdrawPayment",
  title: "Withdraw a wrong payment: it stays on record and no longer counts",
  fields: z
    .strictObject({ by: hand(WHO), reason: note("Why", { hint: "Such as: typed on the wrong job." }) })
    .meta({ id: "PaymentWithdrawal" }),
  answer: keptWithdrawal,
  decide: async (desk, { by: named, reason }, on: OnPayment) => {
    const job = await desk.job(on.job);
    const payment = job?.payments.find(({ id }) => id === on.payment);
    if (!job || !payment) return refused("not found", { detail: "There is no such payment on this job." });
    if (payment.withdrawal)
      return refused("withdrawn already", {
        detail: `${payment.withdrawal.by} withdrew this payment before: ${payment.withdrawal.reason}`,
      });
    const who = handOf(desk, named, WHO);
    if ("refused" in who) return who;
    const gone = await withdrawing(desk, job.id, payment.id, { by: who.by, reason });
    return { answer: gone.record, writes: [gone.write], trail: { job: job.id, head: job.head, events: [gone.event] } };
  },
});

export async function withdrawing({ db, at, newId }: Desk, jobId: string, payment: string, why: { by: string; reason: string }) {
  const record: PaymentWithdrawal = { id: newId(), jobId, at, paymentId: payment, ...why };
  const content = { by: why.by, payment, record: await tellingOf("payment_withdrawals", record) };
  return {
    record,
    write: db.insert(paymentWithdrawalsTable).values(record),
    event: { is: "payment withdrawn" as const, content },
  };
}

interface OnPayment extends OnJob {
  readonly payment: string;
}

const NO_JOB = refused("not found", { detail: "There is no such job." });
