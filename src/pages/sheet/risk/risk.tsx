/** For the shop alone: what the job may cost it, in plain words first. Never on paper that may reach an owner, so it is not printed. */
import type { RiskSummary } from "../../../estimating/sheet.js";
import { chance, money } from "../../../wording/figures.js";
import { lineTitle } from "../../../wording/line.js";
import { counted } from "../../../wording/list.js";
import { whyText } from "../../../wording/reasons.js";
import { jobsIn, plannedBuyText, pricingText, raisedText, riskSourceText, riskText, triedText } from "../../../wording/risk.js";
import { marksOf } from "../../../wording/riskCurve.js";
import { day } from "../../../wording/time.js";
import { figure, figures, Table } from "../../frame/table.js";
import type { SheetProps } from "../sources.js";
import { Curve } from "./curve.js";

export const Risk = (props: SheetProps) => {
  const { sheet, tongue } = props;
  const { risk } = sheet;
  // Before any work is counted there is nothing to foresee.
  if (!risk || !sheet.lines.some(({ sort }) => sort !== "fee")) return null;
  const { by, raisedTo } = risk.pricing;
  return (
    <section class="risk screen" aria-labelledby="risk-name" id="risk">
      <h3 id="risk-name">
        What it may cost you <span class="tag">for the shop alone</span>
      </h3>
      <p class="risk-first">{riskText(risk, tongue)}</p>
      <p>
        {pricingText(by, tongue.locale)} {raisedTo ? `${raisedText(raisedTo)} ` : ""}
        {triedText(risk, tongue, sheet)}
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

/** The rest take off no more than the last of them. */
const MOST_SHARES = 8;

type ExpertProps = SheetProps & { readonly risk: RiskSummary };

/** The statistics behind the plain sentence: percentiles, the curve with its table, what carries the risk, what to buy. */
const Expert = (props: ExpertProps) => {
  const { risk, tongue } = props;
  return (
    <details class="fold" id="risk-expert">
      <summary>Expert view</summary>
      <div class="expert">
        <Curve risk={risk} tongue={tongue} />
        <div>
          <Percentiles {...props} />
          <p class="hint">
            Expected {money(risk.expected, tongue)}, standard deviation {money(risk.sd, tongue)}. Likely times, parts at their
            price and nothing found: {money(risk.pricing.deterministic, tongue)}.
          </p>
        </div>
      </div>
      <Shares {...props} />
      <Buys {...props} />
    </details>
  );
};

const Percentiles = ({ risk, tongue }: ExpertProps) => (
  <Table
    class="lines"
    caption="Chance that the job costs no more"
    captionSeen
    heads={["Mark", ...figures("Chance", "Cost")]}
    rows={marksOf(risk).map(({ name, chance: share, amount, tried }) => ({
      class: tried && "tried",
      cells: [
        <>
          {name}
          <span class="why"> {jobsIn(share)}</span>
        </>,
        chance(share, tongue.locale),
        money(amount, tongue),
      ],
    }))}
  />
);

const Shares = ({ risk: { contributions }, tongue }: ExpertProps) =>
  contributions.length === 0 ? (
    <p class="hint">Nothing about this job is uncertain.</p>
  ) : (
    <>
      <h4>Where the risk comes from</h4>
      <p class="hint">
        What P80 would fall by if this one thing came to its expected cost and the rest stayed as it is. Risks overlap, so these
        do not add up.
        {contributions.length > MOST_SHARES
          ? ` ${counted(contributions.length - MOST_SHARES, "more thing")} may take off no more than the last one here.`
          : ""}
      </p>
      <Table
        class="lines"
        caption="Where the risk comes from"
        heads={["What is not certain", figure("Off P80")]}
        rows={contributions.slice(0, MOST_SHARES).map(({ source, name, takesOff }) => [
          <>
            {name}
            <span class="why"> {riskSourceText(source)}</span>
          </>,
          money(takesOff, tongue),
        ])}
      />
    </>
  );

const Buys = ({ risk: { buyPlans }, sheet, tongue }: ExpertProps) =>
  buyPlans.length === 0 ? null : (
    <>
      <h4>What to buy</h4>
      <ul class="buys">
        {buyPlans.map((plan) => {
          const group = sheet.ifFound.find(({ id }) => id === plan.group);
          return (
            <li>
              {plannedBuyText(plan, tongue)}
              {group ? <span class="why"> For {group.names.join("; ")}.</span> : null}
            </li>
          );
        })}
      </ul>
    </>
  );
