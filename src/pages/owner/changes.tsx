/** What changed since the revision before: money by cause first, then row by row. */

import { markText, signedMoney } from "../../wording/change.js";
import { money } from "../../wording/figures.js";
import { figure, Table } from "../frame/table.js";
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
              <Row row={row} amount={row.inTotal ? signedMoney(row.amount, tongue) : money(row.amount, tongue)} />
            ))}
          </ul>
          <p class="hint">Amounts of rows are before tax where tax comes on top.</p>
        </details>
      ) : null}
    </section>
  );

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
