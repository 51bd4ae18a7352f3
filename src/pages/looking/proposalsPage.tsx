/** What the shop's own jobs say the rate book should be: each proposal with what it rests on, to be ticked, tried out, and accepted. */

import type { ModelFinding } from "../../estimating/closeout/learning/modelFindings.js";
import type { Proposal } from "../../estimating/closeout/learning/proposal.js";
import type { ShareBelief } from "../../estimating/closeout/learning/shareGood.js";
import { chance } from "../../wording/figures.js";
import { changeText, evidenceText, standardName, takenText, withoutText } from "../../wording/learning.js";
import { counted } from "../../wording/list.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import { Box, type SmallForm } from "../frame/field.js";
import { type Frame, Page } from "../frame/layout.js";
import { figure, figures, Table, unseen } from "../frame/table.js";

interface ProposalsPageProps extends SmallForm {
  readonly frame: Frame;
  readonly locale: string;
  readonly book: { readonly name: string; readonly version: number };
  readonly proposals: readonly Proposal[];
  readonly ticked: ReadonlySet<string>;
  /** Of jobs, by id: J-2026-0001. */
  readonly numbers: ReadonlyMap<string, string>;
  /** Closed jobs it rests on, and those on record that are not read for this version yet. */
  readonly jobs: number;
  readonly unread: number;
  readonly models: readonly ModelFinding[];
  readonly shares: readonly ShareBelief[];
  readonly say?: string | undefined;
}

export const ProposalsPage = (props: ProposalsPageProps) => {
  const { frame, book, proposals, jobs, unread, errors, say } = props;
  return (
    <Page frame={frame} title="What the rate book should learn" at="/looking-back" wrong={errors.size > 0}>
      <p class="links back">
        <a href="/looking-back">Looking back</a>
      </p>
      <h1>What the rate book should learn</h1>
      <ErrorSummary errors={errors} />
      <Said say={say} />
      <p>
        {`From ${counted(jobs, "closed job")}, against ${book.name}, version ${book.version}. A few jobs move a figure little, many move it far. Accepting makes version ${book.version + 1}; estimates written before keep the version they have.`}
      </p>
      {unread > 0 ? (
        <form method="post" action="/looking-back/rate-book/read">
          <p class="actions">
            <button type="submit">Read {counted(unread, "more job")}</button>
          </p>
        </form>
      ) : null}
      {proposals.length === 0 ? (
        <p class="empty">Nothing to propose yet: a standard is left alone until three closed jobs have time logged on it.</p>
      ) : (
        <Ticks {...props} />
      )}
      <Models {...props} />
      <Shares {...props} />
    </Page>
  );
};

const Ticks = (props: ProposalsPageProps) => {
  const { proposals, ticked, locale } = props;
  return (
    <form method="post" action="/looking-back/rate-book" novalidate>
      <input type="hidden" name="version" value={String(props.book.version)} />
      <Table
        class="list"
        caption="Proposals"
        heads={["Standard", unseen("Accept"), "Change", "Rests on"]}
        rows={proposals.map((proposal, at) => [
          <span id={`proposal-${at}`}>{standardName(proposal.standard)}</span>,
          <input
            type="checkbox"
            name="accept"
            value={proposal.id}
            checked={ticked.has(proposal.id)}
            aria-labelledby={`proposal-${at}`}
            class="big-tick"
          />,
          proposal.changes.map((change) => <div>{changeText(change, locale)}</div>),
          <>
            {evidenceText(proposal, locale)}
            {proposal.taken ? <div class="hint">{takenText(proposal.taken)}</div> : null}
            {proposal.most ? (
              <div class="hint">
                <a href={`/jobs/${proposal.most.job}/close-out`}>{props.numbers.get(proposal.most.job) ?? "One job"}</a>
                {proposal.most.leftOut
                  ? " took so much more or less than all others that it is left out: with it the likely time would move the other way."
                  : ` moves it most; ${withoutText(proposal.most.changes, locale)}`}
              </div>
            ) : null}
          </>,
        ])}
      />
      <fieldset class="part">
        <legend>Accept what is ticked</legend>
        <div class="columns">
          <Box {...props} name="inForceFrom" label="In force from" type="date" />
        </div>
        <p class="actions">
          <button type="submit" formaction="/looking-back/rate-book/what-if">
            See what would have changed
          </button>
          <button type="submit" class="primary">
            Make version {props.book.version + 1}
          </button>
        </p>
      </fieldset>
    </form>
  );
};

const Models = ({ models, locale }: ProposalsPageProps) =>
  models.length === 0 ? null : (
    <section aria-labelledby="models-name">
      <h2 id="models-name">Models that go differently</h2>
      <p>These cannot go into the rate book: give the work item, or the access on the model's map, its own minutes.</p>
      <Table
        class="list"
        caption="Standards that take longer or shorter on one model"
        heads={["Model", "Standard", "On this model", figure("Jobs")]}
        rows={models.map(({ model, standard, taken, times, jobs }) => [
          model,
          standardName(standard),
          <>
            {takenText(taken)}
            {times.map((change) => (
              <div class="hint">{changeText(change, locale)}</div>
            ))}
          </>,
          jobs,
        ])}
      />
    </section>
  );

const Shares = ({ shares, locale }: ProposalsPageProps) => {
  const bySource = shares.filter(({ source }) => source !== undefined);
  return bySource.length === 0 ? null : (
    <section aria-labelledby="shares-name">
      <h2 id="shares-name">How many were good, by source</h2>
      <Table
        class="list"
        caption="Share of good pieces by source and state"
        heads={["Source", "State", ...figures("Tested", "Good", "Believed share", "Eight times in ten between")]}
        rows={bySource.map(({ source, state, pieces, good, share, low, high }) => [
          ...[source, state, pieces, good],
          chance(share, locale),
          `${chance(low, locale)} and ${chance(high, locale)}`,
        ])}
      />
    </section>
  );
};
