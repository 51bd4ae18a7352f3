/** What jobs earned by month, and how each model went. */
import type { Child } from "hono/jsx";
import type { Earned } from "../../estimating/closeout/accuracy/board.js";
import { chance, money, percent } from "../../wording/figures.js";
import { marginText } from "../../wording/learning.js";
import type { Tongue } from "../../wording/tongue.js";
import { figure, Heads } from "../frame/table.js";
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
  <Heads of={[first, figure("Jobs"), figure("Billed before tax"), figure("Cost"), figure("Left")]} />
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
export const Figure = ({ head, children }: { readonly head: string; readonly children?: Child }) => (
  <td class="figure">
    <span class="narrow-name">{head}: </span>
    {children}
  </td>
);

const MOST_MODELS = 50;

export const Models = ({ board, tongue }: BoardPageProps) => (
  <section aria-labelledby="models-name">
    <h2 id="models-name">Model by model</h2>
    <table class="list">
      <caption class="unseen">Accuracy and margin by model, most jobs first</caption>
      <Heads
        of={[
          "Model",
          figure("Jobs"),
          figure("More or less on average"),
          figure("Half within"),
          figure("Within P80"),
          figure("Left"),
        ]}
      />
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
