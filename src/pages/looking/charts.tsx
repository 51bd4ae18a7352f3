/** The charts of looking back: estimated against actual, and how many stayed within. The tables beside them say the same. */
import type { Coverage } from "../../estimating/closeout/accuracy/accuracy.js";
import type { Minor } from "../../estimating/input.js";
import { chance, roundMoney } from "../../wording/figures.js";
import { coverageText } from "../../wording/learning.js";
import type { Tongue } from "../../wording/tongue.js";

/** A picture of fewer says less than its figures. */
export const DRAWN_FROM = 10;

/** Round numbers for an axis: 1, 2 or 5 times a power of ten apart, holding both ends. */
interface Axis {
  readonly from: number;
  readonly to: number;
  readonly ticks: readonly number[];
}

export function axis(low: number, high: number, most = 5): Axis {
  const span = Math.max(high - low, 1);
  const rough = 10 ** Math.floor(Math.log10(span / most));
  const step = Math.max(1, [1, 2, 5, 10].map((times) => times * rough).find((each) => span / each <= most)!);
  const [from, to] = [Math.floor(low / step) * step, Math.ceil(Math.max(high, low + 1) / step) * step];
  return { from, to, ticks: Array.from({ length: Math.round((to - from) / step) + 1 }, (_, at) => from + at * step) };
}

/** What was estimated across, what the job came to upwards. On the line both are the same; above it the job took more. */
interface Point {
  readonly estimated: Minor;
  readonly actual: Minor;
  /** It passed the figure that four jobs in five should stay within. */
  readonly beyond: boolean;
}

const SIZE = 380;
const LEFT = 64;
const RIGHT = SIZE - 30;
const TOP = 12;
const BOTTOM = SIZE - 48;

export const Scatter = ({ points, tongue }: { points: readonly Point[]; tongue: Tongue }) => {
  const all = points.flatMap(({ estimated, actual }) => [estimated, actual]);
  const { from, to, ticks } = axis(Math.min(0, ...all), Math.max(1, ...all));
  const share = (amount: Minor) => (amount - from) / (to - from);
  const across = (amount: Minor) => round(LEFT + share(amount) * (RIGHT - LEFT));
  const up = (amount: Minor) => round(BOTTOM - share(amount) * (BOTTOM - TOP));
  const beyond = points.filter((point) => point.beyond).length;
  // A figure is some 7.5 wide; where they would touch, each second or third stands.
  const widest = Math.max(...ticks.map((amount) => roundMoney(amount, tongue).length)) * 7.5 + 10;
  const every = Math.ceil(widest / ((RIGHT - LEFT) / (ticks.length - 1)));
  return (
    <svg class="chart" viewBox={`0 0 ${SIZE} ${SIZE}`} role="img" aria-labelledby="scatter-title scatter-desc">
      <title id="scatter-title">Estimated and actual, job by job</title>
      <desc id="scatter-desc">
        {`${points.length} jobs. Estimated across, actual upwards; on the slanting line both are the same. ${beyond} passed the figure that four in five should stay within and are drawn as triangles, the others as circles.`}
      </desc>
      {ticks.map((amount, at) => (
        <>
          <path class="curve-grid" d={`M${LEFT} ${up(amount)}H${RIGHT}`} />
          <text x={LEFT - 6} y={up(amount) + 4} text-anchor="end">
            {roundMoney(amount, tongue)}
          </text>
          <path class="curve-tick" d={`M${across(amount)} ${BOTTOM}v5`} />
          {at % every === 0 ? (
            <text x={across(amount)} y={BOTTOM + 19} text-anchor="middle">
              {roundMoney(amount, tongue)}
            </text>
          ) : null}
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

/** The share of jobs that stayed within their P80, with its range, beside the four in five it should be. */
const LONG = 400;
const NOUGHT = 16;
const ONE = LONG - 16;
const LINE = 44;
const LEVELS = [0, 0.2, 0.4, 0.6, 0.8, 1];

export const CoverageBar = ({ coverage, locale }: { coverage: Coverage; locale: string }) => {
  const at = (share: number) => Math.round((NOUGHT + share * (ONE - NOUGHT)) * 10) / 10;
  const { low, high, share } = coverage;
  return (
    <svg class="chart chart-low" viewBox={`0 0 ${LONG} 90`} role="img" aria-labelledby="coverage-title coverage-desc">
      <title id="coverage-title">Jobs that stayed within the figure four in five should</title>
      <desc id="coverage-desc">{coverageText(coverage, locale)}</desc>
      {LEVELS.map((level) => (
        <>
          <path class="curve-tick" d={`M${at(level)} 62v5`} />
          <text x={at(level)} y={82} text-anchor="middle">
            {chance(level, locale)}
          </text>
        </>
      ))}
      <path class="curve-grid" d={`M${NOUGHT} 62H${ONE}`} />
      <path class="chart-even" d={`M${at(0.8)} 18V62`} stroke-dasharray="6 4" />
      <text x={at(0.8)} y={13} text-anchor="middle" class="curve-label">
        should be
      </text>
      <path class="chart-range" d={`M${at(low)} ${LINE}H${at(high)}M${at(low)} ${LINE - 6}v12M${at(high)} ${LINE - 6}v12`} />
      <circle class="chart-point" cx={at(share)} cy={LINE} r="5" />
    </svg>
  );
};
