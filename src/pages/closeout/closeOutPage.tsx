/** Closing a job: what was logged, what is left to say, and the account as it would be. */
import { accountBasisText, limitText } from "../../wording/account.js";
import { money } from "../../wording/figures.js";
import { Ask } from "../frame/ask.js";
import { ErrorSummary } from "../frame/errorSummary.js";
import { JobFramed } from "../revise/jobFrame.js";
import { paymentsIn, rowsIn } from "./closeFields.js";
import {
  AccountPreview,
  AgreedThen,
  type CloseOutPageProps,
  Found,
  LogFaults,
  Logged,
  NothingDone,
  Unlogged,
  Untouched,
} from "./closeOutParts.js";

export const CloseOutPage = (props: CloseOutPageProps) => {
  const { frame, job, errors, corrects, logFaults, account } = props;
  const over = account !== undefined && account.basis !== "nothing done" && account.held.over > 0;
  return (
    <JobFramed frame={frame} job={job} title={corrects ? "Correct the close-out" : "Close out"} wrong={errors.size > 0}>
      <ErrorSummary errors={errors} />
      <LogFaults job={job.id} faults={logFaults} />
      <Logged {...props} />
      <form method="post" action={`/jobs/${job.id}/close-out`} id="close" novalidate>
        <input type="hidden" name="token" value={props.fields.get("token")} />
        {corrects ? <input type="hidden" name="corrects" value={corrects} /> : null}
        <input type="hidden" name="seen" value={account?.totals.total ?? props.fields.get("seen") ?? ""} />
        <Found {...props} />
        <Untouched {...props} />
        <Unlogged {...props} />
        <Terms {...props} />
        <Payments {...props} />
        <CostsPart {...props} />
        <NothingDone {...props} />
        <AgreedThen {...props} />
        {over || errors.has("above.reason") || props.fields.get("above.reason") ? <Above {...props} /> : null}
        {account ? <AccountPreview account={account} tongue={props.tongue} /> : null}
        <fieldset class="part">
          <legend>{corrects ? "Correct it" : "Close the job"}</legend>
          <p class="hint">
            {corrects
              ? "The record that stands is kept, and the corrected account takes its place."
              : "The account is printed and kept as it is. After that no more time or parts are logged; a mistake is mended by a correction on top."}
          </p>
          <div class="columns">
            <Ask form={props} name="by" autocomplete="name" />
            {corrects ? <Ask form={props} name="reason" size="long" /> : null}
          </div>
        </fieldset>
        <p class="actions">
          <button type="submit" name="intent" value="show" class="quiet">
            Work out the account
          </button>
          <button type="submit" name="intent" value="close" class="primary">
            {corrects ? "Correct the close-out" : "Close the job"}
          </button>
        </p>
      </form>
    </JobFramed>
  );
};

const Terms = (props: CloseOutPageProps) => (
  <fieldset class="part">
    <legend>The account</legend>
    <div class="columns">
      <Ask
        form={props}
        name="basis"
        options={(["fixed price", "time and parts"] as const).map((basis) => [basis, accountBasisText({ basis })] as const)}
      />
      <Ask form={props} name="closedOn" />
      <Ask form={props} name="warrantyDays" />
      <Ask
        form={props}
        name="oldParts.is"
        options={[
          ["returned", "are returned to the owner"],
          ["kept", "are kept"],
        ]}
      />
      <Ask form={props} name="oldParts.why" size="long" />
    </div>
  </fieldset>
);

const Payments = (props: CloseOutPageProps) => {
  const { toPay, tongue } = props;
  const paidFor = props.says.get("payments.*.for")?.choices ?? [];
  const howPaid = props.says.get("payments.*.how")?.choices ?? [];
  const asked = [
    ...(toPay.deposit > 0 ? [`a deposit of ${money(toPay.deposit, tongue)}`] : []),
    ...(toPay.diagnosis ? [`a diagnosis fee of ${toPay.diagnosis}`] : []),
  ];
  // Asked once it is told why.
  const again =
    !props.corrects && (props.fields.has("paidAgain") || [...props.errors.keys()].some((key) => key.startsWith("payments.")));
  return (
    <fieldset class="part">
      <legend>What the owner paid already</legend>
      {asked.length > 0 ? <p class="hint">The estimate asked for {asked.join(" and ")}. Tax included.</p> : null}
      <p class="hint">
        {props.corrects ? "What is cleared here is withdrawn. " : null}
        {money(toPay.recorded, tongue)} is on record under <a href={`/jobs/${props.job.id}/payments`}>Payments</a> and counts
        already. What is typed here is recorded too.
      </p>
      {toPay.prepaid > 0 ? (
        <p class="hint">
          The estimate counted {money(toPay.prepaid, tongue)} as paid already, and no such payment is on record: give the day it
          came, or clear the amount.{props.account ? " The account below counts it while the amount stands here." : null}
        </p>
      ) : null}
      {Array.from({ length: rowsIn(props.fields, "payments") }, (_, row) => (
        <div class="beside">
          <Ask form={props} name={`payments.${row}.on`} label="Day" />
          <Ask form={props} name={`payments.${row}.amount`} label="Amount" />
          <Ask
            form={props}
            name={`payments.${row}.for`}
            options={paidFor.map((each) => [each, each === "other" ? "another payment" : each] as const)}
          />
          <Ask
            form={props}
            name={`payments.${row}.how`}
            options={[["", "not said"], ...howPaid.map((each) => [each, each] as const)]}
          />
        </div>
      ))}
      {props.corrects ? <input type="hidden" name="was" value={props.fields.get("was") ?? paymentsIn(props.fields)} /> : null}
      {again ? <Ask form={props} name="paidAgain" /> : null}
    </fieldset>
  );
};

const CostsPart = (props: CloseOutPageProps) => (
  <fieldset class="part">
    <legend>What it cost the shop</legend>
    <p class="hint">
      Never on the owner's papers. Without it the job's margin is not known.
      {` Parts are known from the work log; freight was estimated at ${money(props.freight, props.tongue)}.`}
    </p>
    <div class="columns">
      <Ask form={props} name="costs.otherwise" />
      <Ask form={props} name="costs.freight" />
    </div>
    {Array.from({ length: rowsIn(props.fields, "costs.other") }, (_, row) => (
      <div class="beside">
        <Ask form={props} name={`costs.other.${row}.what`} />
        <Ask form={props} name={`costs.other.${row}.amount`} label="Amount" />
      </div>
    ))}
  </fieldset>
);

const Above = (props: CloseOutPageProps) => {
  const { account, tongue } = props;
  return (
    <fieldset class="part override" id="above">
      <legend>Above the limit agreed</legend>
      <p role="alert" class="wrong">
        {(account && limitText(account, tongue)) ?? "The account stays within the limit agreed."}
      </p>
      <p>To bill it anyway, say who decides and why; both are recorded and printed on the account.</p>
      <div class="columns">
        <Ask form={props} name="above.by" />
        <Ask form={props} name="above.reason" size="long" />
      </div>
    </fieldset>
  );
};
