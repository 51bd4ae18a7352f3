/** What jobs earned by month, and how each model went. */
import type { AccuracyBoard } from "../../estimating/closeout/accuracy/board.js";
import type { Minor } from "../../estimating/input.js";
import { chance, money, percent, roundMoney } from "../../wording/figures.js";
import { marginText } from "../../wording/learning.js";
import type { Tongue } from "../../wording/tongue.js";
import { figures, Table } from "../frame/table.js";
import { axis, DRAWN_FROM } from "./charts.js";

interface EarnedProps {
  readonly board: AccuracyBoard;
  readonly tongue: Tongue;
}

export const Margins = ({ board, tongue }: EarnedProps) => {
  const said = marginText(board.earned, tongue);
  const months = board.byMonth.filter(({ earned }) => earned.jobs > 0);
  return (
    <section aria-labelledby="margin-name">
      <h2 id="margin-name">What jobs earned</h2>
      <p>{said ?? "No close-out says what the shop's hours cost, so what was earned is not known."}</p>
      {months.length > 0 ? (
        <>
          <details open={months.length < DRAWN_FROM}>
            <summary>Month by month</summary>
            <Table
              class="list"
              caption="What was earned, month by month"
              heads={["Month", ...figures("Jobs", "Billed before tax", "Cost", "Left")]}
              rows={months.map(({ month, earned }) => [
                ...[month, earned.jobs, money(earned.revenue, tongue), money(earned.cost, tongue)],
                `${money(earned.margin, tongue)}${earned.percent === undefined ? "" : ` (${percent(Math.round(earned.percent), tongue.locale)})`}`,
              ])}
            />
          </details>
          {months.length < DRAWN_FROM ? null : (
            <MonthBars months={months.map(({ month, earned }) => ({ month, margin: earned.margin }))} tongue={tongue} />
          )}
        </>
      ) : null}
    </section>
  );
};

const MOST_MODELS = 50;

export const Models = ({ board, tongue }: EarnedProps) => (
  <section aria-labelledby="models-name">
    <h2 id="models-name">Model by model</h2>
    <Table
      class="list"
      caption="Accuracy and margin by model, most jobs first"
      heads={[
        "Model",
        ...figures("Jobs", "More or less on average", "Half off by less than", "Within the figure for 4 in 5", "Left"),
      ]}
      rows={board.byModel
        .slice(0, MOST_MODELS)
        .map(({ model, accuracy, earned }) => [
          <a href={`/looking-back?model=${encodeURIComponent(model)}`}>{model}</a>,
          accuracy?.jobs ?? 0,
          accuracy ? money(Math.round(accuracy.bias), tongue) : "",
          accuracy?.medianAbsolutePercent === undefined ? "" : percent(Math.round(accuracy.medianAbsolutePercent), tongue.locale),
          accuracy?.coverage80 ? chance(accuracy.coverage80.share, tongue.locale) : "",
          earned.jobs === 0 ? "not known" : money(earned.margin, tongue),
        ])}
    />
    {board.byModel.length > MOST_MODELS ? <p>The {MOST_MODELS} models with most jobs are shown.</p> : null}
  </section>
);

/** What was left of each month's jobs; a loss hangs below the line. */
interface MonthMargin {
  /** YYYY-MM. */
  readonly month: string;
  readonly margin: Minor;
}

const WIDTH = 640;
const HEIGHT = 240;
const LEFT = 72;
const RIGHT = WIDTH - 8;
const TOP = 12;
const BOTTOM = HEIGHT - 34;

const MonthBars = ({ months, tongue }: { months: readonly MonthMargin[]; tongue: Tongue }) => {
  const margins = months.map(({ margin }) => margin);
  const { from, to, ticks } = axis(Math.min(0, ...margins), Math.max(1, ...margins), 4);
  const up = (amount: Minor) => round(BOTTOM - ((amount - from) / (to - from)) * (BOTTOM - TOP));
  const wide = (RIGHT - LEFT) / months.length;
  const every = Math.ceil(months.length / 8);
  return (
    <svg class="chart" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-labelledby="months-title months-desc">
      <title id="months-title">Margin by month</title>
      <desc id="months-desc">{months.map(({ month, margin }) => `${month}: ${money(margin, tongue)}`).join("; ")}</desc>
      {ticks.map((amount) => (
        <>
          <path class={amount === 0 ? "chart-nought" : "curve-grid"} d={`M${LEFT} ${up(amount)}H${RIGHT}`} />
          <text x={LEFT - 6} y={up(amount) + 4} text-anchor="end">
            {roundMoney(amount, tongue)}
          </text>
        </>
      ))}
      {months.map(({ month, margin }, at) => {
        const left = round(LEFT + at * wide + wide * 0.15);
        const [top, bottom] = margin >= 0 ? [up(margin), up(0)] : [up(0), up(margin)];
        return (
          <>
            <rect
              class={margin >= 0 ? "chart-left" : "chart-lost"}
              x={left}
              y={top}
              width={round(Math.min(wide * 0.7, 60))}
              height={round(Math.max(1, bottom - top))}
            />
            {at % every === 0 ? (
              <text x={round(left + Math.min(wide * 0.7, 60) / 2)} y={BOTTOM + 20} text-anchor="middle">
                {month}
              </text>
            ) : null}
          </>
        );
      })}
    </svg>
  );
};

const round = (value: number): number => Math.round(value * 10) / 10;
