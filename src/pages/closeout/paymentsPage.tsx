/** Money taken or given back on a job: what is owed, a form for the next payment, and those on record. */
import type { Minor } from "../../estimating/input.js";
import { type OwedShown, owedText } from "../../wording/account.js";
import { money } from "../../wording/figures.js";
import { day } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import type { Frame } from "../frame/layout.js";
import { figure, Table, unseen } from "../frame/table.js";
import { JobFramed, type JobHead } from "../revise/jobFrame.js";

interface PaymentShown {
  readonly id: string;
  readonly for: string;
  readonly amount: Minor;
  readonly on: string;
  readonly how: string;
  readonly by: string;
  readonly note?: string;
  readonly withdrawal?: { readonly by: string; readonly reason: string };
}

interface PaymentsPageProps {
  readonly frame: Frame;
  readonly job: JobHead;
  readonly tongue: Tongue;
  readonly form: AskedForm;
  readonly withdrawal: AskedForm;
  /** The one being withdrawn; its form stands open. */
  readonly withdrawing?: string | undefined;
  readonly payments: readonly PaymentShown[];
  readonly owed: OwedShown;
  /** Of the estimate; see `paidUnrecorded`. */
  readonly unrecorded?: { readonly amount: Minor; readonly counts: boolean } | undefined;
  /** A receipt is on the paper of an estimate. */
  readonly receipts: boolean;
  readonly say?: string | undefined;
}

export const PaymentsPage = (props: PaymentsPageProps) => {
  const { frame, job, tongue, form, withdrawal, withdrawing, payments, unrecorded, say } = props;
  const here = `/jobs/${job.id}/payments`;
  const errors = withdrawing === undefined ? form.errors : withdrawal.errors;
  const gone = payments.find(({ id }) => id === withdrawing);
  return (
    <JobFramed frame={frame} job={job} title="Payments" wrong={errors.size > 0}>
      <ErrorSummary errors={errors} />
      <Said say={say} />
      <p id="owed">
        <strong>{owedText(props.owed, tongue)}</strong>
      </p>
      {unrecorded ? (
        <p class="not-agreed" id="unrecorded">
          {`The estimate says that ${money(unrecorded.amount, tongue)} was paid before, and no such payment is on record. `}
          {unrecorded.counts
            ? "It counts until the first payment is recorded; from then on only what is on record does. "
            : "It no longer counts, since payments are on record now. "}
          <a href={`${here}?unrecorded`}>{unrecorded.counts ? "Record it first" : "Record it"}</a>
        </p>
      ) : null}
      {gone ? (
        <form method="post" action={`${here}/${encodeURIComponent(gone.id)}/withdrawal`} class="narrow" novalidate>
          <input type="hidden" name="token" value={withdrawal.fields.get("token")} />
          <h2>{`Withdraw ${gone.for}, ${money(gone.amount, tongue)}, ${day(gone.on, tongue.locale)}`}</h2>
          <p>It stays on record, struck through, and no longer counts.</p>
          <Ask form={withdrawal} name="by" autocomplete="name" />
          <Ask form={withdrawal} name="reason" rows={1} />
          <p class="actions">
            <button type="submit" class="primary">
              Withdraw it
            </button>
            <a class="button" href={here}>
              Keep it
            </a>
          </p>
        </form>
      ) : (
        <form method="post" action={here} novalidate>
          <input type="hidden" name="token" value={form.fields.get("token")} />
          <fieldset class="part">
            <legend>Record a payment</legend>
            <div class="columns">
              {["for", "amount", "on", "how", "by", "note"].map((name) => (
                <Ask form={form} name={name} />
              ))}
            </div>
            <Ask form={form} name="beyond" />
          </fieldset>
          <p class="actions">
            <button type="submit" class="primary">
              Record it
            </button>
          </p>
        </form>
      )}
      <h2>On record</h2>
      <Table
        class="list"
        caption="Payments, by day"
        empty="No payments yet."
        heads={["Day", "For", "How", "By", figure("Amount"), unseen("Receipt and withdrawal")]}
        rows={payments.map((payment) => ({ cells: cells(payment, here, tongue, props.receipts) }))}
      />
    </JobFramed>
  );
};

function cells(payment: PaymentShown, here: string, tongue: Tongue, receipts: boolean) {
  const { id, on, how, by, note, withdrawal } = payment;
  const amount = money(payment.for === "refund" ? -payment.amount : payment.amount, tongue);
  return [
    day(on, tongue.locale),
    <>
      {payment.for}
      {note ? <div class="hint">{note}</div> : null}
      {withdrawal ? <div class="hint">{`withdrawn by ${withdrawal.by}: ${withdrawal.reason}`}</div> : null}
    </>,
    how,
    by,
    withdrawal ? <s>{amount}</s> : amount,
    withdrawal ? null : (
      <>
        {receipts ? <a href={`${here}/${encodeURIComponent(id)}/receipt.pdf`}>Receipt</a> : null}{" "}
        <a href={`${here}?withdraw=${encodeURIComponent(id)}`}>Withdraw</a>
      </>
    ),
  ];
}
