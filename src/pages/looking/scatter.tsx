/** What was estimated across, what the job came to upwards. On the line both are the same; above it the job took more. */
import type { Minor } from "../../estimating/input.js";
import { roundMoney } from "../../wording/figures.js";
import type { Tongue } from "../../wording/tongue.js";
import { axis } from "./axis.js";

interface Point {
  readonly estimated: Minor;
  readonly actual: Minor;
  /** It passed the figure that four jobs in five should stay within. */
  readonly beyond: boolean;
}

const SIZE = 380;
const LEFT = 64;
const RIGHT = SIZE - 12;
const TOP = 12;
const BOTTOM = SIZE - 48;

export const Scatter = ({ points, tongue }: { points: readonly Point[]; tongue: Tongue }) => {
  const all = points.flatMap(({ estimated, actual }) => [estimated, actual]);
  const { from, to, ticks } = axis(Math.min(0, ...all), Math.max(1, ...all));
  const share = (amount: Minor) => (amount - from) / (to - from);
  const across = (amount: Minor) => round(LEFT + share(amount) * (RIGHT - LEFT));
  const up = (amount: Minor) => round(BOTTOM - share(amount) * (BOTTOM - TOP));
  const beyond = points.filter((point) => point.beyond).length;
  return (
    <svg class="chart" viewBox={`0 0 ${SIZE} ${SIZE}`} role="img" aria-labelledby="scatter-title scatter-desc">
      <title id="scatter-title">Estimated and actual, job by job</title>
      <desc id="scatter-desc">
        {`${points.length} jobs. Estimated across, actual upwards; on the slanting line both are the same. ${beyond} passed the figure that four in five should stay within and are drawn as triangles, the others as circles.`}
      </desc>
      {ticks.map((amount) => (
        <>
          <path class="curve-grid" d={`M${LEFT} ${up(amount)}H${RIGHT}`} />
          <text x={LEFT - 6} y={up(amount) + 4} text-anchor="end">
            {roundMoney(amount, tongue)}
          </text>
          <path class="curve-tick" d={`M${across(amount)} ${BOTTOM}v5`} />
          <text x={across(amount)} y={BOTTOM + 19} text-anchor={amount === to ? "end" : "middle"}>
            {roundMoney(amount, tongue)}
          </text>
        </>
      ))}
      <path class="chart-even" d={`M${across(from)} ${up(from)}L${across(to)} ${up(to)}`} stroke-dasharray="6 4" />
      {points.map(({ estimated, actual, beyond: past }) =>
        past ? (
          <path class="chart-past" d={`M${across(estimated)} ${up(actual) - 5}l5 9h-10z`} />
        ) : (
          <circle class="chart-point" cx={across(estimated)} cy={up(actual)} r="3.5" />
        ),
      )}
      <text x={(LEFT + RIGHT) / 2} y={SIZE - 8} text-anchor="middle" class="curve-name">
        Estimated; upwards: actual
      </text>
    </svg>
  );
};

const round = (value: number): number => Math.round(value * 10) / 10;
