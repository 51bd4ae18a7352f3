/** For the shop alone: what the job may cost it, in plain words first. Never on paper that may reach an owner, so it is not printed. */
import type { RiskSummary } from "../../../estimating/sheet.js";
import { money } from "../../../wording/figures.js";
import { lineTitle } from "../../../wording/line.js";
import { counted } from "../../../wording/list.js";
import { whyText } from "../../../wording/reasons.js";
import { pricingText, raisedText, riskText, triedText } from "../../../wording/risk.js";
import { day } from "../../../wording/time.js";
import type { SheetProps } from "../props.js";
import { Expert } from "./expert.js";

export const Risk = (props: SheetProps) => {
  const { sheet, tongue } = props;
  const { risk } = sheet;
  if (!risk) return null;
  const { by, raisedTo } = risk.pricing;
  return (
    <section class="risk screen" aria-labelledby="risk-name" id="risk">
      <h3 id="risk-name">
        What it may cost you <span class="tag">for the shop alone</span>
      </h3>
      <p class="risk-first">{riskText(risk, tongue)}</p>
      <p>
        {pricingText(by, tongue.locale)} {raisedTo ? `${raisedText(raisedTo)} ` : ""}
        {triedText(risk, tongue)}
      </p>
      <Allowances {...props} />
      <Ready completion={risk.completion} locale={tongue.locale} />
      <p class="hint">Amounts here {risk.taxIncluded ? "include tax" : "are without tax"}; your time counts at your rates.</p>
      <Expert {...props} risk={risk} />
    </section>
  );
};

const Allowances = ({ sheet, tongue }: SheetProps) => {
  const lines = sheet.lines.filter(({ sort }) => sort === "allowance");
  if (lines.length === 0) return null;
  return (
    <dl class="allowances">
      {lines.map((line) => (
        <div>
          <dt>
            {lineTitle(line)} <span class="allowance-amount">{money(line.amount, tongue)}</span>
          </dt>
          <dd>{line.why ? <q>{whyText(line.why, tongue)}</q> : null}</dd>
        </div>
      ))}
    </dl>
  );
};

const Ready = ({ completion: { p50, p80 }, locale }: Pick<RiskSummary, "completion"> & { locale: string }) => {
  const by = ({ on, days }: RiskSummary["completion"]["p50"]) => `${day(on, locale)} (${counted(days, "day")})`;
  return (
    <p>
      {p50.days === p80.days
        ? `At least 4 jobs in 5 like this are ready by ${by(p80)}.`
        : `Half of such jobs are ready by ${by(p50)}, 4 in 5 by ${by(p80)}.`}
    </p>
  );
};
