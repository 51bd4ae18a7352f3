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
import { figure, Heads, unseen } from "../frame/table.js";
import { CoverageBar } from "./coverageBar.js";
import { Figure, Margins, Models } from "./earnedParts.js";
import { Scatter } from "./scatter.js";

export interface LookedAt {
  readonly jobId: string;
  readonly number: string;
  readonly model: string;
  readonly closedOn: IsoDate;
  readonly p50: Minor;
  readonly p80: Minor;
  readonly actual: Minor;
}

export interface BoardPageProps extends SmallForm {
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
            <div class="charts">
              <Scatter
                points={newest.map(({ p50, p80, actual }) => ({ estimated: p50, actual, beyond: actual > p80 }))}
                tongue={tongue}
              />
              {overall.coverage80 ? <CoverageBar coverage={overall.coverage80} locale={tongue.locale} /> : null}
            </div>
            <Jobs {...props} />
          </section>
          <Dearest {...props} />
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
      {newest.length < board.overall!.jobs ? `The ${newest.length} jobs drawn, of ${board.overall!.jobs}` : "The jobs drawn"}
    </summary>
    <table class="list">
      <caption class="unseen">Jobs, closed last first</caption>
      <Heads
        of={["Job", "Closed", "Model", figure("Estimated"), figure("Four in five within"), figure("Actual"), unseen("Passed")]}
      />
      <tbody>
        {newest.map(({ jobId, number, model, closedOn, p50, p80, actual }) => (
          <tr>
            <th scope="row">
              <a href={`/jobs/${jobId}/close-out`}>{number}</a>
            </th>
            <td>{day(closedOn, tongue.locale)}</td>
            <td>{model}</td>
            <Figure head="Estimated">{money(p50, tongue)}</Figure>
            <Figure head="Four in five within">{money(p80, tongue)}</Figure>
            <Figure head="Actual">{money(actual, tongue)}</Figure>
            <td>{actual > p80 ? "passed it" : ""}</td>
          </tr>
        ))}
      </tbody>
    </table>
  </details>
);

const Dearest = ({ dearest, tongue }: BoardPageProps) => (
  <section aria-labelledby="dearest-name">
    <h2 id="dearest-name">The standards that cost most</h2>
    {dearest.length === 0 ? (
      <p>No standard took longer than the rate book says.</p>
    ) : (
      <table class="list">
        <caption class="unseen">Standards that took longer than the rate book says, dearest first</caption>
        <Heads of={["Standard", figure("Jobs"), figure("Allowed"), figure("Taken"), figure("Cost beyond")]} />
        <tbody>
          {dearest.map(({ standard, jobs, allowed, taken, cost }) => (
            <tr>
              <th scope="row">{standardName(standard)}</th>
              <Figure head="Jobs">{jobs}</Figure>
              <Figure head="Allowed">{duration(allowed, tongue.locale)}</Figure>
              <Figure head="Taken">{duration(taken, tongue.locale)}</Figure>
              <Figure head="Cost beyond">
                {money(cost, tongue)}
                <svg class="bar" viewBox="0 0 100 2" preserveAspectRatio="none" aria-hidden="true">
                  <rect class="chart-left" width={Math.round((100 * cost) / dearest[0]!.cost)} height="2" />
                </svg>
              </Figure>
            </tr>
          ))}
        </tbody>
      </table>
    )}
  </section>
);
