/** What the owner asks first: how much, at most how much, what if not, how long. Follows the ticks. */

import { money } from "../../wording/figures.js";
import { counted } from "../../wording/list.js";
import { day } from "../../wording/time.js";
import type { EstimateView } from "./view.js";

export const InShort = ({ view: { sheet, tongue, paper } }: { view: EstimateView }) => {
  const { totals, ceiling, ifDeclined, deposit, days } = sheet;
  return (
    <section class="card in-short" id="in-short" data-follows aria-labelledby="in-short-name">
      <h2 class="unseen" id="in-short-name">
        In short
      </h2>
      <p class="total" id="total">
        <span class="total-name">Total{totals.tax === 0 ? "" : ", tax included"}</span>{" "}
        <strong>{money(totals.total, tongue)}</strong>
      </p>
      <dl class="figures">
        {totals.prepaid === 0 ? null : (
          <Figure name="Still due" value={money(totals.due, tongue)}>
            {money(totals.prepaid, tongue)} is paid already.
          </Figure>
        )}
        <Figure name="Ceiling" value={money(ceiling, tongue)}>
          We stop and ask you before the bill passes it.
        </Figure>
        {deposit === 0 ? null : (
          <Figure name="Deposit" value={money(deposit, tongue)}>
            To be paid before we start; part of the total.
          </Figure>
        )}
        <Figure name="If you decline once it is open" value={money(ifDeclined, tongue)}>
          The most you would owe for finding the fault, opening and closing it.
        </Figure>
        <Figure name="Ready in about" value={counted(days, "day")}>
          From your answer.
        </Figure>
        <Figure name="Good until" value={day(paper.validUntil, tongue.locale)} />
      </dl>
    </section>
  );
};

const Figure = ({ name, value, children }: { name: string; value: string; children?: unknown }) => (
  <div class="told">
    <dt>
      {name}
      {children ? <span class="hint">{children}</span> : null}
    </dt>
    <dd>{value}</dd>
  </div>
);
