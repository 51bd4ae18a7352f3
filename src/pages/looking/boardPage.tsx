import type { AccuracyBoard } from "../../estimating/closeout/accuracy/board.js";
import type { Costly } from "../../estimating/closeout/accuracy/costliest.js";
import type { IsoDate, Minor } from "../../estimating/input.js";
import { money } from "../../wording/figures.js";
import { accuracyTexts, standardName } from "../../wording/learning.js";
import { day, duration } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { ErrorSummary } from "../frame/errorSummary.js";
import { Box, type SmallForm } from "../frame/field.js";
import { type Frame, Page } from "../frame/layout.js";
import { figure, Table, unseen } from "../frame/table.js";
import { CoverageBar, DRAWN_FROM, Scatter } from "./charts.js";
import { Margins, Models } from "./earned.js";

interface LookedAt {
  readonly jobId: string;
  readonly number: string;
  readonly model: string;
  readonly closedOn: IsoDate;
  readonly p50: Minor;
  readonly p80: Minor;
  readonly actual: Minor;
}

interface BoardPageProps extends SmallForm {
  readonly frame: Frame;
  readonly tongue: Tongue;
  readonly board: AccuracyBoard;
  /** Closed last first. */
  readonly newest: readonly LookedAt[];
  readonly dearest: readonly Costly[];
}

export const BoardPage = (props: BoardPageProps) => {
  const { frame, tongue, board, newest, errors } = props;
  const { overall } = board;
  return (
    <Page frame={frame} title="Looking back" at="/looking-back" wrong={errors.size > 0}>
      <h1>Looking back</h1>
      <p class="links">
        <a href="/looking-back/rate-book">What the rate book should learn</a>
      </p>
      <ErrorSummary errors={errors} />
      <Narrow {...props} />
      {overall ? (
        <>
          <section aria-labelledby="accuracy-name">
            <h2 id="accuracy-name">How near the estimates were</h2>
            {accuracyTexts(overall, tongue).map((text) => (
              <p>{text}</p>
            ))}
            <Jobs {...props} />
            {newest.length < DRAWN_FROM ? null : (
              <div class="charts">
                <Scatter
                  points={newest.map(({ p50, p80, actual }) => ({ estimated: p50, actual, beyond: actual > p80 }))}
                  tongue={tongue}
                />
                {overall.coverage80 ? <CoverageBar coverage={overall.coverage80} locale={tongue.locale} /> : null}
              </div>
            )}
          </section>
          <Dearest {...props} />
        </>
      ) : board.byModel.length > 0 ? (
        <p>No job of agreed work is closed yet, so nothing is known of how near the estimates are.</p>
      ) : null}
      {board.byModel.length > 0 ? (
        <>
          <Margins {...props} />
          <Models {...props} />
        </>
      ) : (
        <p class="empty">
          {props.fields.get("from") || props.fields.get("to") || props.fields.get("model")
            ? "No job of this choice is closed yet."
            : "No job is closed yet. When one is, this shows how near its estimate was, what it earned, and which standards to change."}
        </p>
      )}
    </Page>
  );
};

const Narrow = (props: BoardPageProps) => (
  <form method="get" action="/looking-back" novalidate>
    <fieldset class="part">
      <legend>Jobs closed</legend>
      <div class="columns">
        <Box {...props} name="from" label="From" type="date" />
        <Box {...props} name="to" label="To" type="date" />
        <Box {...props} name="model" label="Model" hint="Maker and model; empty: all." />
      </div>
      <p class="actions">
        <button type="submit">Show</button>
      </p>
    </fieldset>
  </form>
);

const Jobs = ({ newest, tongue, board }: BoardPageProps) => (
  <details>
    <summary>
      {newest.length < board.overall!.jobs
        ? `The ${newest.length} newest jobs, of ${board.overall!.jobs}`
        : "The jobs one by one"}
    </summary>
    <Table
      class="list"
      caption="Jobs, closed last first"
      heads={["Job", "Closed", "Model", figure("Estimated"), figure("Four in five within"), figure("Actual"), unseen("Passed")]}
      rows={newest.map(({ jobId, number, model, closedOn, p50, p80, actual }) => [
        <a href={`/jobs/${jobId}/close-out`}>{number}</a>,
        ...[day(closedOn, tongue.locale), model],
        ...[p50, p80, actual].map((amount) => money(amount, tongue)),
        actual > p80 ? "passed it" : "",
      ])}
    />
  </details>
);

const Dearest = ({ dearest, tongue }: BoardPageProps) => (
  <section aria-labelledby="dearest-name">
    <h2 id="dearest-name">The standards that cost most</h2>
    {dearest.length === 0 ? (
      <p>No standard took longer than the rate book says.</p>
    ) : (
      <Table
        class="list"
        caption="Standards that took longer than the rate book says, dearest first"
        heads={["Standard", figure("Jobs"), figure("Allowed"), figure("Taken"), figure("Cost beyond")]}
        rows={dearest.map(({ standard, jobs, allowed, taken, cost }) => [
          standardName(standard),
          jobs,
          duration(allowed, tongue.locale),
          duration(taken, tongue.locale),
          <>
            {money(cost, tongue)}
            <svg class="bar" viewBox="0 0 100 2" preserveAspectRatio="none" aria-hidden="true">
              <rect class="chart-left" width={Math.round((100 * cost) / dearest[0]!.cost)} height="2" />
            </svg>
          </>,
        ])}
      />
    )}
  </section>
);
