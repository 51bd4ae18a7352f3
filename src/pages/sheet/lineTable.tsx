/** The lines of one group; each opens into why it is there and where its amount comes from. */

import type { LineGroup, Subtotal } from "../../estimating/sheet/subtotals.js";
import type { Line } from "../../estimating/sheet.js";
import { money, percent, unitPrice } from "../../wording/figures.js";
import { lineTitle } from "../../wording/line.js";
import { capital } from "../../wording/list.js";
import { scarcityText, spread, whyText } from "../../wording/reasons.js";
import { duration } from "../../wording/time.js";
import { key } from "../form/fields.js";
import { figures, Table } from "../frame/table.js";
import { type SheetProps, Sources } from "./sources.js";

/** Lines whose amounts are explained; absent: all are. Of the others the explanation is drawn when it is unfolded, by a script, or not at all. */
export interface Explained {
  readonly explained?: ReadonlySet<string> | "none";
}

export const LineTable = ({ subtotal, title, ...props }: SheetProps & Explained & { subtotal: Subtotal; title: string }) => {
  const timed = subtotal.minutes > 0;
  const parts = byPlace(subtotal.lines);
  return (
    <Table class="lines" caption={title} heads={["What", ...figures(timed ? "Time" : "Each", "Amount")]}>
      {parts.map(({ place, lines }) => (
        <tbody>
          {BY_PLACE.has(subtotal.group) ? (
            <tr class="place">
              <th colspan={3} scope="rowgroup">
                {place}
              </th>
            </tr>
          ) : null}
          {lines.map((line) => (
            <LineRow {...props} line={line} timed={timed} />
          ))}
        </tbody>
      ))}
    </Table>
  );
};

const BY_PLACE: ReadonlySet<LineGroup> = new Set(["labour", "cleaning", "alignment"]);

const placeOf = ({ assembly, sort }: Line): string =>
  assembly?.name ??
  (sort === "labour rounding" || sort === "minimum charge" ? "Billing" : sort === "donor pull" ? "Donor unit" : "Whole unit");

/** Runs of lines on the same assembly. */
function byPlace(lines: readonly Line[]): readonly { readonly place: string; readonly lines: readonly Line[] }[] {
  const runs: { place: string; lines: Line[] }[] = [];
  for (const line of lines) {
    const place = placeOf(line);
    const last = runs.at(-1);
    if (last?.place === place) last.lines.push(line);
    else runs.push({ place, lines: [line] });
  }
  return runs;
}

const LineRow = ({ line, timed, explained, ...props }: SheetProps & Explained & { line: Line; timed: boolean }) => {
  const { tongue } = props;
  const each = timed
    ? line.minutes === undefined
      ? ""
      : duration(line.minutes, tongue.locale)
    : line.unitPriceE4 === undefined
      ? ""
      : unitPrice(line.unitPriceE4, tongue);
  const id = `why-${key(line.id)}`;
  const name = (
    <>
      {lineTitle(line)}
      {line.count === undefined ? "" : ` × ${line.count}`}
      {line.sort === "scarcity margin" && line.why ? <span class="why"> {whyText(line.why, tongue)}</span> : null}
    </>
  );
  return (
    <tr>
      <td>
        {explained === "none" ? (
          name
        ) : (
          <details id={id} {...(explained && { "data-why": true })}>
            <summary>{name}</summary>
            {explained === undefined || explained.has(id) ? <Explanation {...props} line={line} /> : null}
          </details>
        )}
      </td>
      <td class="figure">{each}</td>
      <td class="figure">{money(line.amount, tongue)}</td>
    </tr>
  );
};

const Explanation = ({ line, ...props }: SheetProps & { line: Line }) => {
  const { tongue, sheet } = props;
  const part =
    line.sort === "part" ? sheet.parts.find(({ type, kind }) => type === line.part?.type && kind === line.part?.kind) : undefined;
  return (
    <>
      {line.why && line.sort !== "scarcity margin" ? <p>{whyText(line.why, tongue)}</p> : null}
      {line.why?.rule === "buy plan" ? (
        <p>
          Expected to be spent on good ones, {money(line.why.expected, tongue)}, less their price above,{" "}
          {money(line.why.catalogue, tongue)}: {money(line.amount, tongue)}.
        </p>
      ) : null}
      {line.times ? (
        <p>{capital(spread(line.times, tongue.locale))}; charged is the mean, (shortest + 4 × likely + longest) / 6.</p>
      ) : null}
      {part ? (
        <p>
          Cost {money(part.cost, tongue)}, mark-up {percent(part.markUpPercent, tongue.locale)}. {part.scarcity}:{" "}
          {scarcityText(part.because, tongue)}.
        </p>
      ) : null}
      <p class="from">Comes from</p>
      <Sources {...props} from={line.from} />
    </>
  );
};
