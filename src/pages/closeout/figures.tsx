/** Actual, allowed, agreed and quoted, row by row, with their sum. What matters most stands first, in sight on a narrow screen. */
import type { Figures } from "../../estimating/closeout/variance/row.js";
import type { Minor } from "../../estimating/input.js";
import { signedMoney } from "../../wording/change.js";
import { money } from "../../wording/figures.js";
import type { Tongue } from "../../wording/tongue.js";
import { figures, Table } from "../frame/table.js";

interface FiguresRow extends Figures {
  readonly name: string;
  /** Read with care, and why. */
  readonly note?: string;
}

interface FiguresTableProps {
  readonly caption: string;
  /** What the rows are. */
  readonly of: string;
  readonly rows: readonly FiguresRow[];
  readonly total: Figures;
  readonly tongue: Tongue;
}

export const FiguresTable = ({ caption, of, rows, total, tongue }: FiguresTableProps) => {
  const cells = ({ quoted, agreed, allowed, actual }: Figures) => [
    money(actual, tongue),
    signedMoney(actual - allowed, tongue),
    ...[allowed, agreed, quoted].map((amount) => money(amount, tongue)),
  ];
  return (
    <Table
      class="lines"
      caption={caption}
      scroll
      heads={[of, ...figures("Actual", "Difference", "Allowed", "Agreed", "Quoted")]}
      rows={rows.map((row) => [
        <>
          {row.name}
          {row.note ? <span class="why"> {row.note}</span> : null}
        </>,
        ...cells(row),
      ])}
      foot={[["Together", ...cells(total)]]}
    />
  );
};

/** Two bars for each row, one over the other, on one scale. The table with the figures stands beside. */
interface BarRow {
  readonly name: string;
  readonly allowed: Minor;
  readonly actual: Minor;
}

const WIDTH = 600;
const LEFT = 256;
const RIGHT = WIDTH - 84;
const ROW = 40;
const BAR = 12;
const TOP = 28;

export const Bars = ({ rows, tongue }: { readonly rows: readonly BarRow[]; readonly tongue: Tongue }) => {
  const most = Math.max(1, ...rows.flatMap(({ allowed, actual }) => [Math.abs(allowed), Math.abs(actual)]));
  const long = (amount: Minor) => Math.round((Math.abs(amount) / most) * (RIGHT - LEFT) * 10) / 10;
  const height = TOP + rows.length * ROW;
  const said = rows.map(
    ({ name, allowed, actual }) => `${name}: allowed ${money(allowed, tongue)}, actual ${money(actual, tongue)}`,
  );
  return (
    <svg class="bars" viewBox={`0 0 ${WIDTH} ${height}`} role="img" aria-labelledby="bars-title bars-desc">
      <title id="bars-title">Allowed and actual, by category</title>
      <desc id="bars-desc">{said.join("; ")}</desc>
      <rect class="bar-allowed" x={LEFT} y={4} width={14} height={BAR} />
      <text x={LEFT + 20} y={15}>
        allowed
      </text>
      <rect class="bar-actual" x={LEFT + 90} y={4} width={14} height={BAR} />
      <text x={LEFT + 110} y={15}>
        actual
      </text>
      {rows.map(({ name, allowed, actual }, index) => {
        const top = TOP + index * ROW;
        return (
          <>
            <text x={LEFT - 10} y={top + 20} text-anchor="end">
              {name}
            </text>
            <rect class="bar-allowed" x={LEFT} y={top + 4} width={long(allowed)} height={BAR} />
            <text x={LEFT + long(allowed) + 6} y={top + 14} class="bar-figure">
              {money(allowed, tongue)}
            </text>
            <rect class="bar-actual" x={LEFT} y={top + 4 + BAR} width={long(actual)} height={BAR} />
            <text x={LEFT + long(actual) + 6} y={top + 14 + BAR} class="bar-figure">
              {money(actual, tongue)}
            </text>
          </>
        );
      })}
    </svg>
  );
};
