/** The statistics behind the plain sentence: percentiles, the curve with its table, what carries the risk, what to buy. */

import type { RiskSummary } from "../../../estimating/sheet.js";
import { chance, money } from "../../../wording/figures.js";
import { counted } from "../../../wording/list.js";
import { jobsIn, plannedBuyText, riskSourceText } from "../../../wording/risk.js";
import { marksOf } from "../../../wording/riskCurve.js";
import { figure, figures, Table } from "../../frame/table.js";
import type { SheetProps } from "../props.js";
import { Curve } from "./curve.js";

/** The rest take off no more than the last of them. */
const MOST_SHARES = 8;

type ExpertProps = SheetProps & { readonly risk: RiskSummary };

export const Expert = (props: ExpertProps) => {
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
