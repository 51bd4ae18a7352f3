/** Money taken or given back on a job; nothing is changed afterwards. A wrong one is withdrawn by a record of its own, and counts nowhere. */
import { asc, eq, inArray, type SQL, sql } from "drizzle-orm";
import { index, integer, sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import type { Payment as Credit } from "../estimating/closeout/account/terms.js";
import type { IsoDate, Minor } from "../estimating/input.js";
import { closeOutsTable } from "./closeOuts.js";
import type { Database } from "./database.js";
import { jobsTable } from "./jobs.js";
import { asWritten, type KeptOnce, type OfJobs, ofJobs, onceColumns } from "./keptOnce.js";
import { withoutNulls } from "./noun.js";
import { outcomesTable } from "./outcomes.js";

export const HOW_PAID = ["cash", "card", "transfer", "other"] as const;

export interface PaymentValue {
  readonly for: Credit["for"];
  /** Above 0; a refund is given back. */
  readonly amount: Minor;
  readonly on: IsoDate;
  readonly how: (typeof HOW_PAID)[number];
  readonly by: string;
  readonly note?: string;
}

export interface Payment extends KeptOnce, PaymentValue {}

export interface PaymentWithdrawal extends KeptOnce {
  readonly paymentId: string;
  readonly by: string;
  readonly reason: string;
}

/** As it stays on record, counted or not. */
export interface PaymentKept extends Payment {
  readonly withdrawal?: PaymentWithdrawal;
}

export const paymentsTable = sqliteTable(
  "payments",
  {
    ...onceColumns(),
    for: text("paid_for").$type<Credit["for"]>().notNull(),
    amount: integer("amount").notNull(),
    on: text("paid_on").notNull(),
    how: text("how").$type<PaymentValue["how"]>().notNull(),
    by: text("taken_by").notNull(),
    note: text("note"),
  },
  (table) => [index("payments_job").on(table.jobId)],
);

export const paymentWithdrawalsTable = sqliteTable(
  "payment_withdrawals",
  {
    ...onceColumns(),
    paymentId: text("payment_id")
      .notNull()
      .references(() => paymentsTable.id),
    by: text("withdrawn_by").notNull(),
    reason: text("reason").notNull(),
  },
  (table) => [uniqueIndex("payment_withdrawals_payment").on(table.paymentId), index("payment_withdrawals_job").on(table.jobId)],
);

/** As an account credits it: what was given back takes away. */
export const creditOf = ({ for: what, on, amount }: PaymentValue): Credit => ({
  ...{ on, for: what },
  amount: what === "refund" ? -amount : amount,
});

/** All that counts: what is on record, and what an account credited before payments were. */
export const credited = (payments: readonly PaymentKept[], byAccount: readonly Credit[] = []): readonly Credit[] => [
  ...unrecorded(byAccount, payments),
  ...standing(payments).map(creditOf),
];

export const standing = (payments: readonly PaymentKept[]): readonly PaymentKept[] =>
  payments.filter(({ withdrawal }) => !withdrawal);

/** Each on record stands for one that is the same. */
export function unrecorded<C extends Credit>(credits: readonly C[], payments: readonly PaymentKept[]): readonly C[] {
  const known = payments.map((payment) => keyOf(creditOf(payment)));
  return credits.filter((credit) => !taken(known, keyOf(credit)));
}

/** The other way about: those on record that no credit stands for. */
export function uncredited(payments: readonly PaymentKept[], credits: readonly Credit[]): readonly PaymentKept[] {
  const known = credits.map(keyOf);
  return payments.filter((payment) => !taken(known, keyOf(creditOf(payment))));
}

function taken(known: string[], key: string): boolean {
  const at = known.indexOf(key);
  if (at >= 0) known.splice(at, 1);
  return at >= 0;
}

const keyOf = ({ on, for: what, amount }: Credit): string => `${on} ${what} ${amount}`;

/** What was paid in all on each of these jobs, refunds taken off; a job without payments is absent. */
export async function paidAmong(db: Database, jobIds: readonly string[]): Promise<ReadonlyMap<string, Minor>> {
  const [recorded, accounts] = await Promise.all([
    kept(db, inArray(paymentsTable.jobId, [...jobIds])),
    db
      .select({ jobId: outcomesTable.jobId, payments: sql<string | null>`${closeOutsTable.basis} -> '$.terms.payments'` })
      .from(outcomesTable)
      .innerJoin(closeOutsTable, eq(closeOutsTable.id, outcomesTable.closeOutId))
      .where(inArray(outcomesTable.jobId, [...jobIds])),
  ]);
  const paid = jobIds.map((id) => {
    const account = accounts.find(({ jobId }) => jobId === id);
    return [
      id,
      credited(
        recorded.filter(({ jobId }) => jobId === id),
        account?.payments ? (JSON.parse(account.payments) as readonly Credit[]) : undefined,
      ),
    ] as const;
  });
  return new Map(
    paid.filter(([, all]) => all.length > 0).map(([id, all]) => [id, all.reduce((sum, { amount }) => sum + amount, 0)]),
  );
}

/**
 * The `most` jobs closed longest ago among so many closed last for which more or less was paid than was billed: on record, or by an
 * account and not on record (`credited`).
 */
export const unevenAmong = (closedLast: number, most: number): SQL => {
  const credit = sql`iif(p.paid_for = 'refund', -p.amount, p.amount)`;
  return sql`${jobsTable.id} in (select job_id from (select closed_last.*, billed_total - coalesce((select sum(${credit}) from payments p
      where p.job_id = closed_last.job_id and not exists (select 1 from payment_withdrawals w where w.payment_id = p.id)), 0) as due
      from (select job_id, close_out_id, billed_total, closed_on from outcomes order by closed_on desc limit ${closedLast}) closed_last) uneven
    where case due when 0 then 0 else due <> coalesce((select sum(closed_last_credit.amount * max(0, closed_last_credit.times - (select count(*) from payments p
        where p.job_id = closed_last_credit.job_id and p.paid_on = closed_last_credit.day and p.paid_for = closed_last_credit.what and ${credit} = closed_last_credit.amount)))
      from (select o.job_id, v.value ->> '$.on' as day, v.value ->> '$.for' as what, v.value ->> '$.amount' as amount, count(*) as times
        from close_outs o, json_each(o.basis, '$.terms.payments') v where o.id = uneven.close_out_id group by 2, 3, 4) closed_last_credit), 0) end
    order by closed_on limit ${most})`;
};

/** Every one ever recorded, oldest day first. */
export const paymentsOf = (db: Database, jobs: OfJobs): Promise<PaymentKept[]> => kept(db, ofJobs(paymentsTable, jobs));

async function kept(db: Database, where: SQL): Promise<PaymentKept[]> {
  const rows = await keptQuery(db, where);
  return rows.map(keptFrom);
}

export const keptQuery = (db: Database, where: SQL) =>
  db
    .select({ payment: paymentsTable, withdrawal: paymentWithdrawalsTable })
    .from(paymentsTable)
    .leftJoin(paymentWithdrawalsTable, eq(paymentWithdrawalsTable.paymentId, paymentsTable.id))
    .where(where)
    .orderBy(asc(paymentsTable.on), asWritten(paymentsTable));

export const keptFrom = ({ payment, withdrawal }: Awaited<ReturnType<typeof keptQuery>>[number]): PaymentKept => ({
  ...withoutNulls<Payment>(payment),
  ...(withdrawal && { withdrawal: withoutNulls<PaymentWithdrawal>(withdrawal) }),
});
