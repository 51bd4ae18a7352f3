/** The chance that the job costs an amount or less, drawn; its table stands beside it. The price is a dashed line with its name. */
import type { Minor } from "../../../estimating/input.js";
import type { RiskSummary } from "../../../estimating/sheet.js";
import { chance, money, roundMoney } from "../../../wording/figures.js";
import { type Mark, riskCurve } from "../../../wording/riskCurve.js";
import type { Tongue } from "../../../wording/tongue.js";

const WIDTH = 400;
const HEIGHT = 270;
const LEFT = 46;
const RIGHT = WIDTH - 12;
const TOP = 30;
const BOTTOM = HEIGHT - 48;
/** Width of a letter at the larger size. */
const LETTER = 8;
const MOST_TICKS = 5;
const LEVELS = [0, 0.2, 0.4, 0.6, 0.8, 1];

export const Curve = ({ risk, tongue }: { risk: RiskSummary; tongue: Tongue }) => {
  const { axis, points, marks } = riskCurve(risk, MOST_TICKS);
  const tried = marks.find(({ tried }) => tried)!;
  const across = (amount: Minor) => round(LEFT + ((amount - axis.from) / (axis.to - axis.from)) * (RIGHT - LEFT));
  const up = (share: number) => round(BOTTOM - share * (BOTTOM - TOP));
  const at = across(tried.amount);
  return (
    <svg class="curve" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-labelledby="curve-title curve-desc">
      <title id="curve-title">Chance that the job costs no more than an amount</title>
      <desc id="curve-desc">{described(marks, tongue)}</desc>
      {LEVELS.map((level) => (
        <>
          <path class="curve-grid" d={`M${LEFT} ${up(level)}H${RIGHT}`} />
          <text x={LEFT - 6} y={up(level) + 4} text-anchor="end">
            {chance(level, tongue.locale)}
          </text>
        </>
      ))}
      {writable(axis.ticks.map((amount) => ({ amount, label: roundMoney(amount, tongue) }))).map(({ amount, label }) => (
        <>
          <path class="curve-tick" d={`M${across(amount)} ${BOTTOM}v5`} />
          <text x={across(amount)} y={BOTTOM + 19} text-anchor="middle">
            {label}
          </text>
        </>
      ))}
      <text x={(LEFT + RIGHT) / 2} y={HEIGHT - 8} text-anchor="middle" class="curve-name">
        Cost, {risk.taxIncluded ? "tax included" : "without tax"}
      </text>
      <path class="curve-price" d={`M${at} ${TOP - 8}V${BOTTOM}`} stroke-dasharray="6 4" />
      <path
        class="curve-line"
        d={points.map(({ amount, chance: share }, at) => `${at === 0 ? "M" : "L"}${across(amount)} ${up(share)}`).join("")}
      />
      {marks.map(({ amount, chance: share, tried, name }) =>
        tried ? null : (
          <>
            <circle class="curve-mark" cx={across(amount)} cy={up(share)} r="4" />
            <text x={across(amount) - 8} y={up(share) - 6} text-anchor="end" class="curve-label">
              {name}
            </text>
          </>
        ),
      )}
      <text
        x={at}
        y={TOP - 14}
        text-anchor={at < WIDTH / 3 ? "start" : at > (2 * WIDTH) / 3 ? "end" : "middle"}
        class="curve-label"
      >
        {tried.name} {money(tried.amount, tongue)}
      </text>
    </svg>
  );
};

/** Every one of few and short labels, every second of longer ones. */
function writable<T extends { readonly label: string }>(ticks: readonly T[]): readonly T[] {
  const widest = Math.max(0, ...ticks.map(({ label }) => label.length)) + 1;
  const step = Math.ceil((ticks.length * widest * LETTER) / (RIGHT - LEFT));
  return ticks.filter((_, index) => index % step === 0);
}

const round = (value: number): number => Math.round(value * 10) / 10;

function described(marks: readonly Mark[], tongue: Tongue): string {
  const said = marks.map(
    ({ name, amount, chance: share }) => `${name} ${money(amount, tongue)}, ${chance(share, tongue.locale)}`,
  );
  return `A curve that rises from none to all such jobs. ${said.join("; ")}. The price stands across it as a dashed line.`;
}
