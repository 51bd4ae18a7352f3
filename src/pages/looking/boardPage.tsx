/** How good estimates were and what jobs earned: in a sentence, drawn, and in a table. */
import type { Child } from "hono/jsx";
import type { AccuracyBoard, Earned } from "../../estimating/closeout/accuracy/board.js";
import type { Costly } from "../../estimating/closeout/accuracy/costliest.js";
import type { IsoDate, Minor } from "../../estimating/input.js";
import {
  accuracyTexts,
  chance,
  day,
  duration,
  marginText,
  money,
  percent,
  standardName,
  type Tongue,
} from "../../wording/index.js";
import { Box, type SmallForm } from "../frame/box.js";
import { ErrorSummary } from "../frame/errorSummary.js";
import { type Frame, Page } from "../frame/layout.js";
import { CoverageBar } from "./coverageBar.js";
import { MonthBars } from "./monthBars.js";
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
      <thead>
        <tr>
          <th scope="col">Job</th>
          <th scope="col">Closed</th>
          <th scope="col">Model</th>
          <th scope="col" class="figure">
            Estimated
          </th>
          <th scope="col" class="figure">
            Four in five within
          </th>
          <th scope="col" class="figure">
            Actual
          </th>
          <th scope="col">
            <span class="unseen">Passed</span>
          </th>
        </tr>
      </thead>
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
        <thead>
          <tr>
            <th scope="col">Standard</th>
            <th scope="col" class="figure">
              Jobs
            </th>
            <th scope="col" class="figure">
              Allowed
            </th>
            <th scope="col" class="figure">
              Taken
            </th>
            <th scope="col" class="figure">
              Cost beyond
            </th>
          </tr>
        </thead>
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

const Margins = ({ board, tongue }: BoardPageProps) => {
  const said = marginText(board.earned, tongue);
  const months = board.byMonth.filter(({ earned }) => earned.jobs > 0);
  return (
    <section aria-labelledby="margin-name">
      <h2 id="margin-name">What jobs earned</h2>
      <p>{said ?? "No close-out says what the shop's hours cost, so what was earned is not known."}</p>
      {months.length > 0 ? (
        <>
          <MonthBars months={months.map(({ month, earned }) => ({ month, margin: earned.margin }))} tongue={tongue} />
          <details>
            <summary>Month by month</summary>
            <table class="list">
              <caption class="unseen">What was earned, month by month</caption>
              <EarnedHead first="Month" />
              <tbody>
                {months.map(({ month, earned }) => (
                  <tr>
                    <th scope="row">{month}</th>
                    <EarnedCells earned={earned} tongue={tongue} />
                  </tr>
                ))}
              </tbody>
            </table>
          </details>
        </>
      ) : null}
    </section>
  );
};

const EarnedHead = ({ first }: { first: string }) => (
  <thead>
    <tr>
      <th scope="col">{first}</th>
      <th scope="col" class="figure">
        Jobs
      </th>
      <th scope="col" class="figure">
        Billed before tax
      </th>
      <th scope="col" class="figure">
        Cost
      </th>
      <th scope="col" class="figure">
        Left
      </th>
    </tr>
  </thead>
);

const EarnedCells = ({ earned, tongue }: { earned: Earned; tongue: Tongue }) => (
  <>
    <Figure head="Jobs">{earned.jobs}</Figure>
    <Figure head="Billed before tax">{money(earned.revenue, tongue)}</Figure>
    <Figure head="Cost">{money(earned.cost, tongue)}</Figure>
    <Figure head="Left">
      {money(earned.margin, tongue)}
      {earned.percent === undefined ? "" : ` (${percent(Math.round(earned.percent), tongue.locale)})`}
    </Figure>
  </>
);

/** Where rows stand under each other for want of room, each figure says what it is. */
const Figure = ({ head, children }: { readonly head: string; readonly children?: Child }) => (
  <td class="figure">
    <span class="narrow-name">{head}: </span>
    {children}
  </td>
);

const MOST_MODELS = 50;

const Models = ({ board, tongue }: BoardPageProps) => (
  <section aria-labelledby="models-name">
    <h2 id="models-name">Model by model</h2>
    <table class="list">
      <caption class="unseen">Accuracy and margin by model, most jobs first</caption>
      <thead>
        <tr>
          <th scope="col">Model</th>
          <th scope="col" class="figure">
            Jobs
          </th>
          <th scope="col" class="figure">
            More or less on average
          </th>
          <th scope="col" class="figure">
            Half within
          </th>
          <th scope="col" class="figure">
            Within P80
          </th>
          <th scope="col" class="figure">
            Left
          </th>
        </tr>
      </thead>
      <tbody>
        {board.byModel.slice(0, MOST_MODELS).map(({ model, accuracy, earned }) => (
          <tr>
            <th scope="row">
              <a href={`/looking-back?model=${encodeURIComponent(model)}`}>{model}</a>
            </th>
            <Figure head="Jobs">{accuracy.jobs}</Figure>
            <Figure head="More or less on average">{money(Math.round(accuracy.bias), tongue)}</Figure>
            <Figure head="Half within">
              {accuracy.medianAbsolutePercent === undefined
                ? ""
                : percent(Math.round(accuracy.medianAbsolutePercent), tongue.locale)}
            </Figure>
            <Figure head="Within P80">{accuracy.coverage80 ? chance(accuracy.coverage80.share, tongue.locale) : ""}</Figure>
            <Figure head="Left">{earned.jobs === 0 ? "not known" : money(earned.margin, tongue)}</Figure>
          </tr>
        ))}
      </tbody>
    </table>
    {board.byModel.length > MOST_MODELS ? <p>The {MOST_MODELS} models with most jobs are shown.</p> : null}
  </section>
);
