/** From the first line to what is due: groups that open into their lines, then allowances, charges, tax and totals. */

import { type LineGroup, type Subtotal, subtotals } from "../../estimating/sheet/subtotals.js";
import type { Adjustment, TaxGroup } from "../../estimating/sheet.js";
import { money, percent } from "../../wording/figures.js";
import { adjustmentTitle } from "../../wording/line.js";
import { taxRoundingText } from "../../wording/reasons.js";
import { duration } from "../../wording/time.js";
import { isUntaxed } from "../../wording/untaxed.js";
import { key } from "../form/fields.js";
import { type Explained, LineTable } from "./lineTable.js";
import { type SheetProps, Sources } from "./sources.js";

const GROUP_TITLES: Readonly<Record<LineGroup, string>> = {
  access: "Opening and refitting",
  labour: "Labour",
  cleaning: "Cleaning",
  alignment: "Alignment",
  testing: "Tests and soak",
  parts: "Parts",
  scarcity: "Scarcity margin",
  risk: "For what cannot be known yet",
  fees: "Fees",
};

export const Ledger = (props: SheetProps & Explained & { open?: boolean }) => {
  const { sheet, tongue } = props;
  const { totals } = sheet;
  const taxed = totals.taxGroups.length > 0 && !isUntaxed(totals);
  return (
    <section class="ledger" aria-labelledby="ledger-name">
      <h3 id="ledger-name">How it adds up</h3>
      {props.explained === "none" ? (
        <p class="no-script">
          <button type="submit" form="intake" name="intent" value="open:why" class="quiet">
            Say where each amount comes from
          </button>
        </p>
      ) : null}
      {sheet.lines.length === 0 ? <p class="empty">Nothing is counted yet. Type a count in the grid, or add a line.</p> : null}
      {subtotals(sheet).map((group) => (
        <Group {...props} subtotal={group} />
      ))}
      {sheet.lines.length > 0 ? <Plain name="Sum of the lines" amount={money(totals.linesNet, tongue)} strong /> : null}
      {sheet.adjustments.map((adjustment) => (
        <Adjusted {...props} adjustment={adjustment} />
      ))}
      {taxed ? <Plain name="Without tax" amount={money(totals.withoutTax, tongue)} /> : null}
      {taxed ? totals.taxGroups.map((tax) => <Taxed {...props} tax={tax} />) : null}
      <Plain name="Total" amount={money(totals.total, tongue)} strong />
      {totals.prepaid === 0 ? null : (
        <>
          <Plain name="Paid already" amount={money(-totals.prepaid, tongue)} />
          <Plain name="Still due" amount={money(totals.due, tongue)} strong />
        </>
      )}
      {taxed ? (
        <p class="hint">
          {totals.pricesIncludeTax ? "Prices include tax. " : ""}
          {taxRoundingText(totals.rounding)}
        </p>
      ) : null}
    </section>
  );
};

const Group = ({ subtotal, open = false, ...props }: SheetProps & Explained & { subtotal: Subtotal; open?: boolean }) => {
  const { tongue, sheet } = props;
  return (
    <details class="group" id={`group-${subtotal.group}`} open={open}>
      <summary class="entry">
        <span class="entry-name">{GROUP_TITLES[subtotal.group]}</span>
        <span class="entry-time">{subtotal.minutes > 0 ? duration(subtotal.minutes, tongue.locale) : ""}</span>
        <span class="entry-amount">{money(subtotal.amount, tongue)}</span>
        <Bar share={sheet.totals.linesNet > 0 ? subtotal.amount / sheet.totals.linesNet : 0} />
      </summary>
      <LineTable {...props} subtotal={subtotal} title={GROUP_TITLES[subtotal.group]} />
    </details>
  );
};

/** The share of the lines as a stroke; the figure beside it says the same. */
const Bar = ({ share }: { share: number }) => (
  <svg class="bar" viewBox="0 0 100 2" preserveAspectRatio="none" aria-hidden="true">
    <rect class="bar-all" width="100" height="2" />
    <rect class="bar-share" width={String(Math.round(Math.min(1, Math.max(0, share)) * 1000) / 10)} height="2" />
  </svg>
);

const Plain = ({ name, amount, strong = false }: { name: string; amount: string; strong?: boolean }) => (
  <p class={strong ? "entry strong" : "entry"}>
    <span class="entry-name">{name}</span>
    <span class="entry-amount">{amount}</span>
  </p>
);

const Adjusted = ({ adjustment, ...props }: SheetProps & { adjustment: Adjustment }) => (
  <details class="group" id={`adjustment-${key(adjustment.id)}`}>
    <summary class="entry">
      <span class="entry-name">{adjustmentTitle(adjustment, props.tongue)}</span>
      <span class="entry-amount">{money(adjustment.charge ? adjustment.amount : -adjustment.amount, props.tongue)}</span>
    </summary>
    <Sources {...props} from={adjustment.from} />
  </details>
);

const Taxed = ({ tax, input, tongue }: SheetProps & { tax: TaxGroup }) => (
  <details class="group" id={`tax-${key(tax.category)}`}>
    <summary class="entry">
      <span class="entry-name">{tax.name}</span>
      <span class="entry-amount">{money(tax.tax, tongue)}</span>
    </summary>
    <p>
      {percent(tax.percent, tongue.locale)} of {money(tax.base, tongue)}, rate book {input.rateBook.name}.
    </p>
  </details>
);
