/** The sheet that explains itself. It shows figures of the engine and adds none. */
import { cautionAlone, DEFER } from "../../wording/caution.js";
import { capital } from "../../wording/list.js";
import { detailText, warningText } from "../../wording/reasons.js";
import { Figures } from "./figures.js";
import { IfFound, Options, Suggestions } from "./groups.js";
import { Ledger } from "./ledger.js";
import { Order } from "./order.js";
import { Risk } from "./risk/risk.js";
import type { SheetProps } from "./sources.js";

export const SheetView = (props: SheetProps & { open?: boolean }) => {
  const { sheet } = props;
  return (
    <div class="sheet">
      <Figures {...props} />
      <Warnings {...props} />
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
        {sheet.detail.access === "none" ? "" : `Access is reckoned ${detailText(sheet.detail.access)}. `}
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
        {sheet.hazards.map(({ hazard, from }) => (
          <>
            <dt>
              {capital(hazard)}
              <span class="hint"> {from.join(", ")}</span>
            </dt>
            <dd>{cautionAlone(hazard)}</dd>
          </>
        ))}
      </dl>
      <p>{DEFER}</p>
    </details>
  );

const Warnings = ({ sheet, tongue }: SheetProps) =>
  sheet.warnings.length === 0 ? null : (
    <section class="warnings" aria-labelledby="warnings-name">
      <h3 id="warnings-name">Please note</h3>
      <ul>
        {sheet.warnings.map((warning) => (
          <li class={`warning warning-${warning.is.replaceAll(" ", "-")}`}>{warningText(warning, tongue)}</li>
        ))}
      </ul>
    </section>
  );
