/** Quoted, agreed, allowed and actual, row by row, with their sum. */
import type { Figures } from "../../estimating/closeout/variance/figures.js";
import { signedMoney } from "../../wording/change.js";
import { money } from "../../wording/figures.js";
import type { Tongue } from "../../wording/tongue.js";

export interface FiguresRow extends Figures {
  readonly name: string;
  /** Read with care, and why. */
  readonly note?: string;
}

export interface FiguresTableProps {
  readonly caption: string;
  /** What the rows are. */
  readonly of: string;
  readonly rows: readonly FiguresRow[];
  readonly total: Figures;
  readonly tongue: Tongue;
}

export const FiguresTable = ({ caption, of, rows, total, tongue }: FiguresTableProps) => (
  <section class="scroll" tabindex={0} aria-label={caption}>
    <table class="lines">
      <caption class="unseen">{caption}</caption>
      <thead>
        <tr>
          <th scope="col">{of}</th>
          {["Quoted", "Agreed", "Allowed", "Actual", "Difference"].map((name) => (
            <th scope="col" class="figure">
              {name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr>
            <th scope="row">
              {row.name}
              {row.note ? <span class="why"> {row.note}</span> : null}
            </th>
            <Cells figures={row} tongue={tongue} />
          </tr>
        ))}
      </tbody>
      <tfoot>
        <tr>
          <th scope="row">Together</th>
          <Cells figures={total} tongue={tongue} />
        </tr>
      </tfoot>
    </table>
  </section>
);

const Cells = ({ figures: { quoted, agreed, allowed, actual }, tongue }: { figures: Figures; tongue: Tongue }) => (
  <>
    {[quoted, agreed, allowed, actual].map((amount) => (
      <td class="figure">{money(amount, tongue)}</td>
    ))}
    <td class="figure">{signedMoney(actual - allowed, tongue)}</td>
  </>
);
