/** A closed job: what it came to and why, in plain words first. For the shop alone. */

import type { FinalAccount } from "../../estimating/closeout/account/finalAccount.js";
import type { Margin } from "../../estimating/closeout/account/margin.js";
import type { CloseOut } from "../../estimating/closeout/variance/closeOut.js";
import type { EstimateInput } from "../../estimating/input.js";
import { accountBasisText, agreedThenText, handBackTexts, limitText, notChargedText } from "../../wording/account.js";
import { earnedText, unagreedText } from "../../wording/closeout.js";
import { money, percent } from "../../wording/figures.js";
import { day } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { isUntaxed } from "../../wording/untaxed.js";
import { Said } from "../frame/errorSummary.js";
import type { Frame } from "../frame/layout.js";
import { figures, Table } from "../frame/table.js";
import { JobFramed, type JobHead, LogChanged } from "../revise/jobFrame.js";
import { Comparison } from "./comparison.js";

interface ClosedPageProps {
  readonly frame: Frame;
  readonly job: JobHead;
  readonly tongue: Tongue;
  readonly closedOn: string;
  readonly by: string;
  /** Absent where nothing was agreed to. */
  readonly closeOut?: CloseOut;
  readonly account: FinalAccount;
  /** As it stands today. */
  readonly owed: { readonly paid: number; readonly due?: number };
  readonly margin?: Margin;
  readonly planned?: Margin;
  readonly input: EstimateInput;
  /** Records that this one corrects, oldest first. */
  readonly before: readonly { readonly at: string; readonly by: string; readonly total: string }[];
  readonly reason?: string;
  readonly logChanged: boolean;
  readonly say?: string | undefined;
}

export const ClosedPage = (props: ClosedPageProps) => {
  const { frame, job, tongue, closeOut, account, margin, planned, before, reason } = props;
  const cash = (amount: number) => money(amount, tongue);
  const { totals } = account;
  const { due = 0 } = props.owed;
  const [limit, notCharged] = [limitText(account, tongue), notChargedText(account, tongue)];
  const then = agreedThenText(account, tongue);
  return (
    <JobFramed frame={frame} job={job} title="Close-out">
      <Said say={props.say} />
      {props.logChanged ? <LogChanged job={job.id} /> : null}
      <p class="lead" id="earned">
        {closeOut ? earnedText(closeOut, { margin, planned }, tongue) : unagreedText({ margin, account }, tongue)}
      </p>
      <section class="card" aria-labelledby="account-name">
        <h2 id="account-name">Final account</h2>
        <p class="links screen">
          <a href={`/jobs/${job.id}/final-account.pdf`}>Final account PDF</a>
          <a href={`/jobs/${job.id}/${closeOut ? "close-out" : "hand-back"}?correct`}>Correct a mistake</a>
        </p>
        <dl class="facts">
          <Fact name="Closed">
            {day(props.closedOn, tongue.locale)}, by {props.by}
          </Fact>
          <Fact name="Basis">{accountBasisText(account)}</Fact>
          <Fact name={isUntaxed(totals) ? "Total" : "Total, tax included"}>
            <strong>{cash(totals.total)}</strong>
          </Fact>
          <Fact name="Paid already">{cash(props.owed.paid)}</Fact>
          <Fact name={due < 0 ? "To be paid back" : "Still to pay"}>
            <strong>{cash(Math.abs(due))}</strong>
          </Fact>
        </dl>
        {limit ? <p>{limit}</p> : null}
        {then ? <p>{then}</p> : null}
        {notCharged ? <p>{notCharged}</p> : null}
        {handBackTexts(account, tongue).map((text) => (
          <p>{text}</p>
        ))}
        {due === 0 ? null : (
          <p class="screen">
            <a href={`/jobs/${job.id}/payments`}>Payments</a>
          </p>
        )}
        {reason ? <p>Corrected: {reason}</p> : null}
        {before.length > 0 ? (
          <ul id="before">
            {before.map(({ at, by, total }) => (
              <li>
                Before, by {by}, {at}: {total}
              </li>
            ))}
          </ul>
        ) : null}
      </section>
      {margin ? <Earned margin={margin} planned={planned} tongue={tongue} /> : null}
      {closeOut ? <Comparison closeOut={closeOut} input={props.input} tongue={tongue} /> : null}
    </JobFramed>
  );
};

const Fact = ({ name, children }: { name: string; children?: unknown }) => (
  <div>
    <dt>{name}</dt>
    <dd>{children}</dd>
  </div>
);

const Earned = ({ margin, planned, tongue }: { margin: Margin; planned: Margin | undefined; tongue: Tongue }) => {
  const cash = (amount: number | undefined) => (amount === undefined ? "" : money(amount, tongue));
  const share = (of: Margin | undefined) =>
    of?.percent === undefined ? "" : percent(Math.round(of.percent * 10) / 10, tongue.locale);
  const hours = [planned, margin];
  const forHour = (of: Margin | undefined) => (of?.untimed ? "not known" : cash(of?.perHour));
  const beside = (name: string, before: string, now: string) => (planned ? [name, before, now] : [name, now]);
  return (
    <section aria-labelledby="margin-name">
      <h2 id="margin-name">What it earned</h2>
      <Table
        class="lines"
        id="margin"
        caption="Margin, planned and earned"
        heads={["At cost to the shop", ...figures(...(planned ? ["Planned", "Earned"] : ["Earned"]))]}
        rows={[
          beside("Billed, without tax", cash(planned?.revenue), cash(margin.revenue)),
          beside("Hours", cash(planned && -planned.labour), cash(-margin.labour)),
          beside("Parts", cash(planned && -planned.parts), cash(-margin.parts)),
          beside("Freight and other costs", cash(planned && -planned.other), cash(-margin.other)),
        ]}
        foot={[
          beside("Margin", cash(planned?.margin), cash(margin.margin)),
          beside("Of what was billed", share(planned), share(margin)),
          ...(hours.every((of) => of?.perHour === undefined && !of?.untimed)
            ? []
            : [beside("For each hour at the bench", forHour(planned), forHour(margin))]),
        ]}
      />
      {hours.some((of) => of?.untimed) ? (
        <p class="hint">What an hour earned is not known where work is billed whose time is not, as at a fixed price.</p>
      ) : null}
    </section>
  );
};
