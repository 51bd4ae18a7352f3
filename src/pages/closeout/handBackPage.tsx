/** Closing a job on which nothing was agreed to: what is owed by what was promised, what goes back, and the account as it would be. */
import type { FinalAccount } from "../../estimating/closeout/account/finalAccount.js";
import type { Minor } from "../../estimating/input.js";
import { money } from "../../wording/figures.js";
import type { Tongue } from "../../wording/tongue.js";
import { Ask, type AskedForm } from "../frame/ask.js";
import { ErrorSummary } from "../frame/errorSummary.js";
import type { Frame } from "../frame/layout.js";
import { JobFramed, type JobHead } from "../revise/jobFrame.js";
import { AccountPreview, AgreedThen, LogFaults, Opened } from "./closeOutParts.js";

interface HandBackPageProps extends AskedForm {
  readonly frame: Frame;
  readonly job: JobHead;
  readonly tongue: Tongue;
  /** Who declined, and when; absent where nothing was issued. */
  readonly declined?: string;
  /** The most that may be asked for; 0 where nobody agreed to pay for looking. */
  readonly promised: Minor;
  readonly account?: FinalAccount;
  /** Something may be asked for it, and no opening is logged. */
  readonly asksOpened: boolean;
  readonly logFaults: readonly string[];
  /** Id of the close-out that is corrected. */
  readonly corrects?: string;
}

function owedFor({ declined, promised, tongue }: Pick<HandBackPageProps, "declined" | "promised" | "tongue">): string {
  const most = money(promised, tongue);
  if (declined !== undefined)
    return promised === 0
      ? `Declined: ${declined}. The estimate asked for no fee for finding the fault and named no limit for it, so nothing is owed.`
      : `Declined: ${declined}. Owed is the fee for finding the fault and the time logged so far, and at most ${most}, as promised.`;
  return promised === 0
    ? "The owner takes the unit back and no estimate was issued. No fee and no limit for finding the fault was agreed beforehand, so nothing is owed."
    : `The owner takes the unit back and no estimate was issued. Owed is what was logged of opening it and looking for the fault, with the fee for that, and at most ${most}, as the receipt says; nothing where nothing was logged.`;
}

export const HandBackPage = (props: HandBackPageProps) => {
  const { frame, job, tongue, errors, corrects, account } = props;
  const title = corrects ? "Correct the close-out" : "Close and hand back";
  return (
    <JobFramed frame={frame} job={job} title={title} wrong={errors.size > 0}>
      <ErrorSummary errors={errors} />
      <LogFaults job={job.id} faults={props.logFaults} />
      <p>
        {owedFor(props)}
        {account?.agreedThen?.charged
          ? ` Beside it stands the work that was done before, as agreed: as the log stands, ${money(account.totals.total, tongue)} in all.`
          : ""}
      </p>
      <p>
        <a href={`/jobs/${job.id}/payments`}>Payments</a>: a fee taken, or a deposit given back, is recorded there, before or
        after closing.
      </p>
      {account ? <AccountPreview account={account} tongue={tongue} /> : null}
      <form method="post" action={`/jobs/${job.id}/hand-back`} id="hand-back" novalidate>
        <input type="hidden" name="token" value={props.fields.get("token")} />
        {corrects ? <input type="hidden" name="corrects" value={corrects} /> : null}
        <input type="hidden" name="seen" value={account?.totals.total ?? props.fields.get("seen") ?? ""} />
        <AgreedThen {...props} />
        <fieldset class="part">
          <legend>What goes back</legend>
          <div class="columns">
            <Ask form={props} name="to" autocomplete="off" />
            <Ask form={props} name="closedOn" />
          </div>
          {props.asksOpened ? <Opened {...props} /> : null}
          <Ask form={props} name="accessories" rows={3} />
          <Ask form={props} name="note" rows={2} />
          <div class="columns">
            <Ask
              form={props}
              name="oldParts.is"
              label="Parts that were taken out"
              options={[
                ["returned", "go back with it"],
                ["kept", "are kept"],
              ]}
            />
            <Ask form={props} name="oldParts.why" size="long" />
          </div>
        </fieldset>
        <fieldset class="part">
          <legend>What it cost the shop</legend>
          <p class="hint">Never on the owner's papers. Without it, what the job earned or cost is not known.</p>
          <Ask form={props} name="costs.otherwise" />
        </fieldset>
        <fieldset class="part">
          <legend>{corrects ? "Correct it" : "Close the job"}</legend>
          <p class="hint">
            {corrects
              ? "The record that stands is kept, and the corrected account takes its place."
              : "The account is printed and kept as it is; a mistake is mended by a correction on top."}
          </p>
          <div class="columns">
            <Ask form={props} name="by" autocomplete="name" />
            {corrects ? <Ask form={props} name="reason" size="long" /> : null}
          </div>
        </fieldset>
        <p class="actions">
          <button type="submit" class="primary">
            {corrects ? "Correct the close-out" : "Close the job"}
          </button>
        </p>
      </form>
    </JobFramed>
  );
};
