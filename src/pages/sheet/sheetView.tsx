/** The sheet that explains itself. It shows figures of the engine and adds none. */

import type { Minor } from "../../estimating/input.js";
import { isAboveOwners, neverMore } from "../../estimating/sheet/terms.js";
import { cautionAlone, DEFER, dangerFrom } from "../../wording/caution.js";
import { money } from "../../wording/figures.js";
import { belowCostText, belowDecliningText, declinedTexts, unknownDeliveryText } from "../../wording/line.js";
import { capital, counted } from "../../wording/list.js";
import { detailText, ruleText, warningText } from "../../wording/reasons.js";
import { day, duration } from "../../wording/time.js";
import { Companions, IfFound, Options, Suggestions } from "./groups.js";
import { Ledger } from "./ledger.js";
import type { Explained } from "./lineTable.js";
import { Order } from "./order.js";
import { Risk } from "./risk/risk.js";
import { type SheetProps, Sources } from "./sources.js";

/** What of the job bears on a sheet. */
export interface SoFar {
  /** An earlier revision is agreed: declining this one leaves that and costs nothing. */
  readonly stands?: boolean;
  /** The most that the owner has agreed to. */
  readonly allowed?: Minor;
  /** Work whose parts are in place. */
  readonly fitted?: readonly string[];
}

export const SheetView = (props: SheetProps & Explained & SoFar & { open?: boolean; add?: boolean }) => {
  const { sheet } = props;
  return (
    <div class="sheet">
      <Figures {...props} />
      <Warnings {...props} />
      {props.add ? <Companions {...props} /> : null}
      <Risk {...props} />
      <div class="halves">
        <Ledger {...props} />
        <div>
          <Options {...props} />
          <IfFound {...props} />
          <Suggestions {...props} />
          <Order {...props} />
          <Cautions {...props} />
        </div>
      </div>
      <p class="rests">
        {sheet.detail.access === "none" ? "" : `Access is worked out ${detailText(sheet.detail.access)}. `}
        {sheet.detail.work === "none" ? "" : `Work is counted ${detailText(sheet.detail.work)}. `}Rates and times from{" "}
        <a href="/rate-book">
          {sheet.rateBook.name}, version {sheet.rateBook.version}
        </a>
        .
      </p>
    </div>
  );
};

export const Cautions = ({ sheet, unfolded = false }: SheetProps & { unfolded?: boolean }) =>
  sheet.hazards.length === 0 ? null : (
    <details class="cautions" id="cautions" open={unfolded}>
      <summary>Cautions at the bench ({sheet.hazards.length})</summary>
      <dl>
        {sheet.hazards.map((each) => (
          <>
            <dt>
              {capital(each.hazard)}
              <span class="hint"> {dangerFrom(each)}</span>
            </dt>
            <dd>{cautionAlone(each.hazard)}</dd>
          </>
        ))}
      </dl>
      <p>{DEFER}</p>
    </details>
  );

const Warnings = ({ sheet, input, tongue, stands, allowed = 0, fitted }: SheetProps & SoFar) => {
  const warnings = sheet.warnings.filter((each) => each.is !== "above ceiling" || each.total > allowed);
  const below = [
    stands ? undefined : belowDecliningText(sheet, tongue),
    belowCostText(sheet, tongue),
    unknownDeliveryText(input, sheet, fitted),
  ].flatMap((text) => text ?? []);
  return warnings.length + below.length === 0 ? null : (
    <section class="warnings" aria-labelledby="warnings-name">
      <h3 id="warnings-name">Please note</h3>
      <ul>
        {warnings.map((warning) => (
          <li class={`warning warning-${warning.is.replaceAll(" ", "-")}`}>{warningText(warning, tongue)}</li>
        ))}
        {below.map((text) => (
          <li class="warning">{text}</li>
        ))}
      </ul>
    </section>
  );
};

/** What the owner asks first: how much, at most how much, what if not, how long. */
const Figures = (props: SheetProps & SoFar) => {
  const { sheet, input, tongue } = props;
  const { totals, ceiling, ifDeclined, deposit, days } = sheet;
  const { spread } = sheet.time;
  const time = sheet.time.charged ?? sheet.time;
  const price = (amount: Minor) => money(amount, tongue);
  const owed = declinedTexts(ifDeclined, input.rateBook.tax, tongue);
  return (
    <>
      <p class="total">
        <span class="total-name">Total{totals.tax === 0 ? "" : ", tax included"}</span> <strong>{price(totals.total)}</strong>
      </p>
      <div class="figures">
        {totals.prepaid === 0 ? null : (
          <Figure name="Still due" value={price(totals.due)}>
            {price(totals.prepaid)} is paid already.
          </Figure>
        )}
        <Figure name="Ceiling" value={price(neverMore(sheet))}>
          {isAboveOwners(sheet) ? (
            `The total: it is above the ${price(ceiling.amount)} that the owner had allowed, and agreeing allows it.`
          ) : ceiling.from.is === "rule" ? (
            ruleText(ceiling.from.rule)
          ) : (
            <Sources {...props} from={[ceiling.from]} />
          )}{" "}
          The shop may not go above it without a new agreement.
        </Figure>
        {props.stands ? null : (
          <Figure name="If declined after opening" value={price(ifDeclined.amount)}>
            Diagnosis {owed.diagnosis}, access and refit {owed.access}
            {ifDeclined.tax > 0 ? ", tax included" : ""}.
            {ifDeclined.limit === undefined
              ? " No limit was agreed."
              : ` The agreed limit is ${price(ifDeclined.limit)}${ifDeclined.limited ? ", and it applies." : "."}`}
          </Figure>
        )}
        <Figure name="Deposit" value={price(deposit.amount)}>
          <Sources {...props} from={deposit.from} />
        </Figure>
        <Figure name="Days to complete" value={String(days.total)}>
          {counted(days.queue, "day")} until the bench is free, {counted(days.lead, "day")} for parts,{" "}
          {counted(days.bench, "day")} at the bench.
        </Figure>
        <Figure name="Bench time" value={duration(time.attended, tongue.locale)}>
          {sheet.time.charged ? `What the lines charge; most likely ${duration(spread.likely, tongue.locale)}` : "Likely"}; it may
          be {duration(spread.low, tongue.locale)} to {duration(spread.high, tongue.locale)}. Unattended:{" "}
          {duration(time.unattended, tongue.locale)}.
        </Figure>
        <Figure name="Valid until" value={day(sheet.validUntil, tongue.locale)} />
      </div>
    </>
  );
};

const Figure = ({ name, value, children }: { name: string; value: string; children?: unknown }) =>
  children ? (
    <details class="group" id={`figure-${name.toLowerCase().replaceAll(" ", "-")}`}>
      <summary class="entry">
        <span class="entry-name">{name}</span>
        <span class="entry-amount">{value}</span>
      </summary>
      <div class="because">{children}</div>
    </details>
  ) : (
    <p class="entry">
      <span class="entry-name">{name}</span>
      <span class="entry-amount">{value}</span>
    </p>
  );
