import { chance, money, percent } from "../../wording/figures.js";
import { marginText } from "../../wording/learning.js";
import { figures, Table } from "../frame/table.js";
import type { BoardPageProps } from "./boardPage.js";
import { MonthBars } from "./monthBars.js";

export const Margins = ({ board, tongue }: BoardPageProps) => {
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
        </>
      ) : null}
    </section>
  );
};

const MOST_MODELS = 50;

export const Models = ({ board, tongue }: BoardPageProps) => (
  <section aria-labelledby="models-name">
    <h2 id="models-name">Model by model</h2>
    <Table
      class="list"
      caption="Accuracy and margin by model, most jobs first"
      heads={["Model", ...figures("Jobs", "More or less on average", "Half within", "Within P80", "Left")]}
      rows={board.byModel
        .slice(0, MOST_MODELS)
        .map(({ model, accuracy, earned }) => [
          <a href={`/looking-back?model=${encodeURIComponent(model)}`}>{model}</a>,
          accuracy.jobs,
          money(Math.round(accuracy.bias), tongue),
          accuracy.medianAbsolutePercent === undefined ? "" : percent(Math.round(accuracy.medianAbsolutePercent), tongue.locale),
          accuracy.coverage80 ? chance(accuracy.coverage80.share, tongue.locale) : "",
          earned.jobs === 0 ? "not known" : money(earned.margin, tongue),
        ])}
    />
    {board.byModel.length > MOST_MODELS ? <p>The {MOST_MODELS} models with most jobs are shown.</p> : null}
  </section>
);
