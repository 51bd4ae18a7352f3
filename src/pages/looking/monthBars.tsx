/** What was left of each month's jobs; a loss hangs below the line. */
import type { Minor } from "../../estimating/input.js";
import { money, roundMoney } from "../../wording/figures.js";
import type { Tongue } from "../../wording/tongue.js";
import { axis } from "./axis.js";

export interface MonthMargin {
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

export const MonthBars = ({ months, tongue }: { months: readonly MonthMargin[]; tongue: Tongue }) => {
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
