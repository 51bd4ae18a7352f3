import type { Cause } from "../../estimating/agreement/causes.js";
import type { ChangeList } from "../../estimating/agreement/changeList.js";
import type { ThenAndNow } from "../../estimating/agreement/changeSums.js";
import type { RowChange } from "../../estimating/agreement/rowChanges.js";
import type { Minor } from "../../estimating/input.js";
import type { Adjustment, GroupPrice, Line } from "../../estimating/sheet.js";
import { fieldText, rowTitle, signedMark, signedMoney } from "../../wording/change.js";
import type { Words } from "../../wording/english/index.js";
import { lineNote } from "../../wording/line.js";
import { capital } from "../../wording/list.js";
import type { Block, Column, Row } from "../layout/block.js";
import type { Subject } from "./subject.js";

const columns = (rows: string, { paperChanges: texts }: Words): Column[] => [
  { title: rows, width: "rest" },
  { title: texts.change, width: "fit" },
  { title: texts.was, width: "fit", align: "right" },
  { title: texts.isNow, width: "fit", align: "right" },
  { title: texts.difference, width: "fit", align: "right" },
];

const BREATH: Block = { is: "gap", height: 10 };

/** Rows of the total; with what did not change they add up to it, then and now. */
export function changedRows({ rows, sums }: ChangeList, subject: Subject): Block[] {
  const own = rows.filter(({ is }) => is === "line" || is === "adjustment");
  if (own.length === 0) return [];
  const { cash, tongue, words } = subject;
  const texts = words.paperChanges;
  const reasons = reasonsOf(rows);
  const sum = (kind: "sum" | "total", label: string, { before, after, difference }: ThenAndNow): Row => ({
    kind,
    cells: [{ text: label }, { text: cash(before) }, { text: cash(after) }, { text: signedMoney(difference, tongue) }],
  });
  const { unchanged, aboveTax, taxOnTop, total } = sums;
  const taxed = taxOnTop.before !== 0 || taxOnTop.after !== 0;
  return [
    BREATH,
    {
      is: "table",
      columns: columns(texts.rows, words),
      rows: [
        ...own.map((row) => asRow(row, reasons, subject)),
        sum("sum", texts.unchanged, { before: unchanged, after: unchanged, difference: 0 }),
        ...(taxed ? [sum("sum", texts.withoutTax, aboveTax), sum("sum", texts.tax, taxOnTop)] : []),
        sum("total", texts.total, total),
      ],
    },
  ];
}

/** What was found since, each with its own price and what it shares with the others. */
export function faultsSince({ faults }: ChangeList, { cash, tongue, words }: Subject): Block[] {
  if (!faults) return [];
  const texts = words.paperChanges;
  const { each, together } = faults;
  const shares = each.some(({ shared }) => shared !== 0);
  const share = (amount: Minor) => (shares ? [{ text: amount === 0 ? "" : cash(amount) }] : []);
  return [
    BREATH,
    {
      is: "table",
      columns: [
        { title: texts.faults, width: "rest" },
        { title: texts.taxIncluded, width: "fit", align: "right" },
        ...(shares ? [{ title: texts.ofItShared, width: "fit", align: "right" } as const] : []),
      ],
      rows: [
        ...each.map(({ name, reason, newPlace, is, inTotal, price, shared }): Row => {
          const notes = [
            ...(reason ? [asSentence(withoutStop(reason))] : []),
            ...(newPlace ? [texts.newPlace(newPlace)] : []),
            ...(is === "if found" ? [texts.onlyIfNecessary] : inTotal ? [] : [texts.yoursToChoose]),
          ];
          return {
            cells: [
              { text: name, ...(notes.length > 0 && { note: notes.join(" ") }) },
              { text: signedMoney(price, tongue) },
              ...share(shared),
            ],
          };
        }),
        ...(each.length > 1
          ? [
              {
                kind: "total",
                cells: [{ text: texts.together }, { text: signedMoney(together, tongue) }, ...share(0)],
              } as const,
            ]
          : []),
      ],
    },
  ];
}

/** Options and work that may be found: each has a price of its own, which is not in the total. */
export function changedOffers({ rows }: ChangeList, subject: Subject): Block[] {
  const own = rows.filter(({ is }) => is === "option" || is === "if found");
  if (own.length === 0) return [];
  return [
    BREATH,
    {
      is: "table",
      columns: columns(subject.words.paperChanges.offers, subject.words),
      rows: own.map((row) => asRow(row, new Map(), subject)),
    },
  ];
}

function asRow(row: RowChange, reasons: Reasons, subject: Subject): Row {
  const { cash, tongue } = subject;
  const note = noteOf(row, reasons, subject);
  return {
    cells: [
      { text: rowTitle(row, tongue), ...(note && { note }) },
      { text: signedMark(row.mark, tongue) },
      { text: row.before ? cash(amountOf(row.before)) : "" },
      { text: row.after ? cash(amountOf(row.after)) : "" },
      { text: signedMoney(row.amount, tongue) },
    ],
  };
}

function amountOf(row: Line | Adjustment | GroupPrice): Minor {
  if ("price" in row) return row.price;
  return "charge" in row && !row.charge ? -row.amount : row.amount;
}

const why = ({ paperChanges: texts }: Words): Readonly<Partial<Record<Cause, string>>> => ({
  "extra faults": texts.foundSince,
  found: texts.provedNecessary,
  choice: texts.optionTaken,
});

/** Why, then what is different beside the amount. */
function noteOf(row: RowChange, reasons: Reasons, subject: Subject): string {
  const reason = row.reason ?? reasonBehind(row, reasons, subject);
  const because = [row.cause && why(subject.words)[row.cause], reason && withoutStop(reason)].filter(Boolean).join(": ");
  const fields = row.fields
    .filter(({ field }) => field !== "amount" && field !== "reason")
    .map((field) => fieldText(field, subject.tongue));
  return [because, fields.join("; ")].filter(Boolean).map(asSentence).join(" ");
}

const withoutStop = (text: string): string => text.trim().replace(/[.]+$/, "");
const asSentence = (text: string): string => `${capital(text)}.`;

/** Parts and access have no reason of their own: the work behind them has, or what makes it necessary. */
function reasonBehind(row: RowChange, reasons: Reasons, subject: Subject): string | undefined {
  if (row.is !== "line") return undefined;
  const { from, sort } = (row.after ?? row.before)!;
  const wanted = sort === "access" ? "assembly" : "item";
  const behind = new Set(from.flatMap((source) => (source.is === wanted ? (reasons.get(`${wanted} ${source.id}`) ?? []) : [])));
  if (behind.size > 0) return [...behind].map(withoutStop).join("; ");
  return row.after && row.after.sort !== "part" ? lineNote(row.after, subject.input, subject.tongue) : undefined;
}

/** By what parts and access name as their source: the work item, or the assembly that is worked on. */
type Reasons = ReadonlyMap<string, readonly string[]>;

function reasonsOf(rows: readonly RowChange[]): Reasons {
  const reasons = new Map<string, string[]>();
  const note = (key: string, reason: string) => reasons.set(key, [...(reasons.get(key) ?? []), reason]);
  for (const { is, before, after, reason } of rows) {
    if (reason === undefined || is === "adjustment") continue;
    const shown = (after ?? before)!;
    if ("items" in shown) for (const id of shown.items) note(`item ${id}`, reason);
    else if ("from" in shown)
      for (const source of shown.from)
        if (source.is === "item" || source.is === "assembly") note(`${source.is} ${source.id}`, reason);
  }
  return reasons;
}
