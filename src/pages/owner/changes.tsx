/** What changed since the revision before: money by cause first, then row by row. */
import type { FaultsFound } from "../../estimating/agreement/faultsFound.js";
import { markText, signedMoney } from "../../wording/change.js";
import { money, percent } from "../../wording/figures.js";
import type { Tongue } from "../../wording/tongue.js";
import { figure, figures, Table } from "../frame/table.js";
import type { EstimateView, OwnerChanges } from "./view.js";

export const Changes = ({ view: { changes, tongue } }: { view: EstimateView }) =>
  changes === undefined ? null : (
    <section class="changes" aria-labelledby="changes-name">
      <h2 id="changes-name">What changed since revision {changes.since}</h2>
      {changes.causes.length > 0 ? (
        <Table
          class="lines"
          caption="What the total changed by, by cause"
          heads={["Because of", figure("Total")]}
          rows={changes.causes.map(({ text, amount }) => [text, signedMoney(amount, tongue)])}
        />
      ) : (
        <p>The total is the same.</p>
      )}
      {changes.faults ? <Faults faults={changes.faults} tongue={tongue} /> : null}
      {changes.figures.length > 0 ? (
        <ul>
          {changes.figures.map((figure) => (
            <li>{figure}</li>
          ))}
        </ul>
      ) : null}
      {changes.rows.length > 0 ? (
        <details class="fold" id="changed-rows" open={changes.rows.length <= 6}>
          <summary>Row by row ({changes.rows.length})</summary>
          <ul class="rows">
            {changes.rows.map((row) => (
              <Row row={row} amount={signedMoney(row.amount, tongue)} />
            ))}
          </ul>
          <p class="hint">
            Amounts of rows are before tax where tax comes on top; those of options and of what we may find have it in.
          </p>
        </details>
      ) : null}
    </section>
  );

const Faults = ({ faults: { each, together }, tongue }: { faults: FaultsFound; tongue: Tongue }) => {
  const shares = each.some(({ shared }) => shared !== 0);
  const share = (amount: number) => (shares ? [amount === 0 ? "" : money(amount, tongue)] : []);
  return (
    <Table
      class="lines"
      caption="What we found since, each by itself, tax included"
      captionSeen
      heads={["Found since", ...figures("By itself", ...(shares ? ["Of it shared"] : []))]}
      rows={[
        ...each.map(({ name, reason, newPlace, is, inTotal, price, shared }) => [
          <>
            {name}
            {reason ? <span class="why"> {reason}</span> : null}
            {newPlace ? <span class="why"> {newPlace} was not in the estimate before.</span> : null}
            {is === "if found" ? <span class="why"> Only if it proves necessary.</span> : null}
            {is === "optional" && !inTotal ? <span class="why"> For you to choose.</span> : null}
          </>,
          signedMoney(price, tongue),
          ...share(shared),
        ]),
        ...(each.length > 1
          ? [[<strong>Together, in the total</strong>, <strong>{signedMoney(together, tongue)}</strong>, ...share(0)]]
          : []),
      ]}
    />
  );
};

const Row = ({ row, amount }: { row: OwnerChanges["rows"][number]; amount: string }) => (
  <li class="entry">
    <span class="entry-name">
      <span class="tag">{markText(row.mark)}</span> {row.title}
      {row.reason ? <span class="why"> {row.reason}</span> : null}
      {row.fields.length > 0 ? <span class="why"> {row.fields.join(", ")}</span> : null}
    </span>
    <span class="entry-amount">
      {amount}
      {row.inTotal ? null : <span class="hint"> not in the total</span>}
    </span>
  </li>
);

/** More than this, and the headings start folded. */
const SHORT = 15;

export const MadeOf = ({ view: { sheet, tongue } }: { view: EstimateView }) => {
  const { lines, headings, adjustments, totals } = sheet;
  return (
    <section class="ledger" id="made-of" data-follows aria-labelledby="made-of-name">
      <h2 id="made-of-name">What it is made of</h2>
      {headings.map(({ heading, amount: sum }, index) => (
        <details class="group" id={`heading-${index + 1}`} open={lines.length <= SHORT}>
          <summary class="entry">
            <span class="entry-name">{heading}</span>
            <span class="entry-amount">{money(sum, tongue)}</span>
          </summary>
          <ul class="rows">
            {lines
              .filter((line) => line.heading === heading)
              .map(({ title, note, count, amount }) => (
                <li class="entry">
                  <span class="entry-name">
                    {title}
                    {count === undefined ? "" : ` × ${count}`}
                    {note ? <span class="why"> {note}</span> : null}
                  </span>
                  <span class="entry-amount">{money(amount, tongue)}</span>
                </li>
              ))}
          </ul>
        </details>
      ))}
      <Sum name="Sum of the lines" amount={money(totals.linesNet, tongue)} strong />
      {adjustments.map(({ title, amount }) => (
        <Sum name={title} amount={money(amount, tongue)} />
      ))}
      {totals.taxGroups.length > 0 ? <Sum name="Without tax" amount={money(totals.withoutTax, tongue)} /> : null}
      {totals.taxGroups.map((group) => (
        <Sum
          name={group.name}
          note={`${percent(group.percent, tongue.locale)} of ${money(group.base, tongue)}`}
          amount={money(group.tax, tongue)}
        />
      ))}
      <Sum
        name={totals.pricesIncludeTax ? "Total; the lines include tax" : "Total"}
        amount={money(totals.total, tongue)}
        strong
      />
      {totals.prepaid === 0 ? null : (
        <>
          <Sum name="Paid already" amount={money(-totals.prepaid, tongue)} />
          <Sum name="Still due" amount={money(totals.due, tongue)} strong />
        </>
      )}
    </section>
  );
};

const Sum = ({ name, note, amount, strong = false }: { name: string; note?: string; amount: string; strong?: boolean }) => (
  <p class={strong ? "entry strong" : "entry"}>
    <span class="entry-name">
      {name}
      {note ? <span class="why"> {note}</span> : null}
    </span>
    <span class="entry-amount">{amount}</span>
  </p>
);
