/** The share of jobs that stayed within their P80, with its range, beside the four in five it should be. */
import type { Coverage } from "../../estimating/closeout/accuracy/accuracy.js";
import { chance } from "../../wording/figures.js";
import { coverageText } from "../../wording/learning.js";

const WIDTH = 400;
const LEFT = 16;
const RIGHT = WIDTH - 16;
const LINE = 44;
const LEVELS = [0, 0.2, 0.4, 0.6, 0.8, 1];

export const CoverageBar = ({ coverage, locale }: { coverage: Coverage; locale: string }) => {
  const at = (share: number) => Math.round((LEFT + share * (RIGHT - LEFT)) * 10) / 10;
  const { low, high, share } = coverage;
  return (
    <svg class="chart chart-low" viewBox={`0 0 ${WIDTH} 90`} role="img" aria-labelledby="coverage-title coverage-desc">
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
      <path class="curve-grid" d={`M${LEFT} 62H${RIGHT}`} />
      <path class="chart-even" d={`M${at(0.8)} 18V62`} stroke-dasharray="6 4" />
      <text x={at(0.8)} y={13} text-anchor="middle" class="curve-label">
        should be
      </text>
      <path class="chart-range" d={`M${at(low)} ${LINE}H${at(high)}M${at(low)} ${LINE - 6}v12M${at(high)} ${LINE - 6}v12`} />
      <circle class="chart-point" cx={at(share)} cy={LINE} r="5" />
    </svg>
  );
};
