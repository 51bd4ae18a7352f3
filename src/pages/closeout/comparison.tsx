/** What a job came to against what was quoted, agreed and allowed: in words, in a picture, and in tables that sum. */

import type { CloseOut } from "../../estimating/closeout/variance/closeOut.js";
import { VARIANCES } from "../../estimating/closeout/variance/row.js";
import type { EstimateInput } from "../../estimating/input.js";
import { signedMoney } from "../../wording/change.js";
import {
  atBookPrices,
  closeOutCategoryName,
  closeOutRowTitle,
  foundOrNotText,
  noTimeText,
  riskWorthText,
  scopeCauseText,
  varianceName,
  varianceText,
} from "../../wording/closeout.js";
import { workTitle } from "../../wording/line.js";
import type { Tongue } from "../../wording/tongue.js";
import { figure, Table } from "../frame/table.js";
import { Bars, FiguresTable } from "./figures.js";

interface ComparisonProps {
  readonly closeOut: CloseOut;
  /** What was agreed, for the names of its work. */
  readonly input: EstimateInput;
  readonly tongue: Tongue;
}

export const Comparison = ({ closeOut, input, tongue }: ComparisonProps) => {
  const { total, categories, items, assemblies, rows, risk, ifFound, scope } = closeOut;
  const titles = new Map(input.items.map((item) => [item.id, workTitle(item, input)]));
  return (
    <>
      <h2>By category</h2>
      <p class="hint">
        {atBookPrices(input.rateBook.tax)} Allowed is the agreed work as it was found and done; difference is actual less allowed.
        {rows.some(({ untimed }) => untimed) ? " Work that nobody timed stands at what was allowed." : ""}
      </p>
      <Bars
        tongue={tongue}
        rows={categories.map(({ category, allowed, actual }) => ({ name: closeOutCategoryName(category), allowed, actual }))}
      />
      <FiguresTable
        caption="By category"
        of="Category"
        rows={categories.map((each) => ({ ...each, name: closeOutCategoryName(each.category) }))}
        total={total}
        tongue={tongue}
      />
      <h2>Why it differs</h2>
      <Table
        class="lines"
        id="variances"
        caption="Actual less allowed, by cause"
        heads={["Cause", figure("Difference")]}
        rows={VARIANCES.filter((kind) => total.variance[kind] !== 0).map((kind) => [
          <>
            {varianceName(kind)}
            <span class="why"> {varianceText(kind, total.variance[kind], tongue)}</span>
          </>,
          signedMoney(total.variance[kind], tongue),
        ])}
        foot={[["Actual less allowed", signedMoney(total.actual - total.allowed, tongue)]]}
      />
      {scope.length > 0 ? (
        <>
          <h2>Change of scope</h2>
          <p class="hint">Kept apart from how well the work was estimated: allowed less quoted.</p>
          <Table
            class="lines"
            id="scope"
            caption="Allowed less quoted, by cause"
            heads={["Cause", figure("Change")]}
            rows={scope.map(({ cause, amount }) => [scopeCauseText(cause), signedMoney(amount, tongue)])}
            foot={[["Allowed less quoted", signedMoney(total.allowed - total.quoted, tongue)]]}
          />
        </>
      ) : null}
      {risk.length + ifFound.length > 0 ? (
        <>
          <h2>What the risk was worth</h2>
          <ul>
            {risk.map((worth) => (
              <li>
                {closeOutRowTitle({ is: { line: worth.line } }, tongue)}: {riskWorthText(worth, tongue)}
              </li>
            ))}
            {ifFound.map((found) => (
              <li>{foundOrNotText(found, tongue)}</li>
            ))}
          </ul>
        </>
      ) : null}
      <details class="fold" id="by-item">
        <summary>By piece of work</summary>
        <FiguresTable
          caption="By piece of work"
          of="Work"
          rows={items.map(({ item, ...figures }) => ({
            ...figures,
            name: item === undefined ? "Not of one piece of work" : (titles.get(item) ?? item),
          }))}
          total={total}
          tongue={tongue}
        />
      </details>
      <details class="fold" id="by-assembly">
        <summary>By assembly</summary>
        <FiguresTable
          caption="By assembly"
          of="Assembly"
          rows={assemblies.map(({ assembly, ...figures }) => ({ ...figures, name: assembly?.name ?? "Not of one assembly" }))}
          total={total}
          tongue={tongue}
        />
      </details>
      <details class="fold" id="by-line">
        <summary>Line by line</summary>
        <FiguresTable
          caption="Line by line"
          of="Line"
          rows={rows.map((row) => ({
            ...row,
            name: [row.assembly?.name, closeOutRowTitle(row, tongue)].filter(Boolean).join(": "),
            ...(noTimeText(row) && { note: noTimeText(row)! }),
          }))}
          total={total}
          tongue={tongue}
        />
      </details>
    </>
  );
};
