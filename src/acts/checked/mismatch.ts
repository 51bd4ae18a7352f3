import type { ChainFault } from "../../estimating/agreement/chain.js";
import type { Adjustment, Sheet } from "../../estimating/sheet.js";
import { chainFaultText } from "../../wording/agreement.js";

/** What does not match what. `revision` is of an estimate of the job. */
export type Mismatch =
  | { readonly is: "job missing"; readonly number: string }
  | { readonly is: "chain"; readonly fault: ChainFault }
  | { readonly is: "head given"; readonly head: string }
  | { readonly is: "row changed" | "row untold" | "row missing"; readonly in: string; readonly id: string }
  | { readonly is: "row otherwise"; readonly in: string; readonly id: string; readonly column: string }
  | { readonly is: "row without copy" | "copy without row"; readonly in: string; readonly id: string }
  | ({ readonly is: "row not as copied"; readonly in: string; readonly id: string; readonly column: string } & {
      /** Absent where it is of a secret. */
      readonly says?: unknown;
      readonly copy?: unknown;
    })
  | { readonly is: "rows without job"; readonly count: number }
  | { readonly is: "logo changed"; readonly id: string }
  | { readonly is: "unreadable"; readonly in: string; readonly id: string; readonly what: string }
  | { readonly is: "unchecked"; readonly why: string }
  | { readonly is: "damaged"; readonly what: string }
  | { readonly is: "photo missing" | "photo changed"; readonly id: string }
  | { readonly is: "revisions"; readonly found: readonly number[] }
  | { readonly is: "not frozen" | "not issued" | "head on paper" | "content hash" | "pdf" | "sheet"; readonly revision: number }
  | { readonly is: "rate book missing"; readonly revision: number; readonly book: string }
  | { readonly is: "sums"; readonly revision: number; readonly sums: readonly string[] }
  | {
      readonly is: "close-out";
      readonly id: string;
      readonly what: "content hash" | "pdf" | "revision" | "figures" | "sums" | "outcome";
    }
  | { readonly is: "answer"; readonly id: string; readonly what: "revision" | "amount" | "ceiling" | "deposit" };

export function mismatchText(mismatch: Mismatch): string {
  switch (mismatch.is) {
    case "job missing":
      return `There is no job ${mismatch.number}, though later ones are there; it was deleted.`;
    case "chain":
      return chainFaultText(mismatch.fault);
    case "head given":
      return `The head ${mismatch.head} that was given is not in the chain; events were cut off or rewritten.`;
    case "row changed":
      return `Row '${mismatch.id}' of ${mismatch.in} is not as the event of its writing tells; it was changed.`;
    case "row untold":
      return `Row '${mismatch.id}' of ${mismatch.in} is told of by no event; it was put in by hand.`;
    case "row missing":
      return `Row '${mismatch.id}' of ${mismatch.in} is gone, though an event tells of its writing.`;
    case "row otherwise":
      return `Row '${mismatch.id}' of ${mismatch.in}: '${mismatch.column}' is not what it is worked out from; one of them was changed.`;
    case "row without copy":
      return `${named(mismatch)} has no copy beside it; it was put in by hand, or its copy was taken away.`;
    case "copy without row":
      return `${named(mismatch)} is gone and only its copy is left; it was taken out by hand.`;
    case "row not as copied": {
      const { column, says, copy } = mismatch;
      const how = copy === undefined ? "" : `: it says ${quoted(says, copy)}, its copy says ${quoted(copy, says)}`;
      return `${named(mismatch)}: '${column}' is not what was written${how}; it was changed or is damaged.`;
    }
    case "rows without job":
      return `${mismatch.count} rows belong to no job that is there.`;
    case "logo changed":
      return `The logo ${mismatch.id} is not the picture of that hash; it was changed.`;
    case "unreadable":
      return `Row '${mismatch.id}' of ${mismatch.in}: ${mismatch.what} cannot be read; it was changed or is damaged.`;
    case "unchecked":
      return `It could not be checked: ${mismatch.why}`;
    case "damaged":
      return `The database file is damaged: ${mismatch.what}`;
    case "photo missing":
      return `The file of photo ${mismatch.id} is not beside the database.`;
    case "photo changed":
      return `The file of photo ${mismatch.id} is not the picture that was taken in; it was changed or is damaged.`;
    case "revisions":
      return `The revisions are numbered ${mismatch.found.join(", ")}, not 1, 2, 3 and so on.`;
    case "not frozen":
      return `Revision ${mismatch.revision} was issued but stands as a draft, or with another date or name.`;
    case "not issued":
      return `Revision ${mismatch.revision} stands as issued, but there is no record of its issue.`;
    case "head on paper":
      return `The head printed on revision ${mismatch.revision} is not the one on record with its issue.`;
    case "content hash":
      return `Input, rate book or sheet of revision ${mismatch.revision} does not match its content hash.`;
    case "pdf":
      return `The PDF of revision ${mismatch.revision} does not match its hash.`;
    case "sheet":
      return `The sheet of revision ${mismatch.revision} is not what its input comes to.`;
    case "rate book missing":
      return `Rate book ${mismatch.book}, which revision ${mismatch.revision} rests on, is gone.`;
    case "sums":
      return `In revision ${mismatch.revision} this is not the sum of what stands above it: ${mismatch.sums.join(", ")}.`;
    case "close-out":
      return `Close-out '${mismatch.id}': ${CLOSE_OUT[mismatch.what]}.`;
    case "answer":
      return mismatch.what === "revision"
        ? `Answer '${mismatch.id}' is to no revision with that content and that PDF.`
        : `The ${mismatch.what} of answer '${mismatch.id}' is not what its set comes to.`;
  }
}

const WORDS: Readonly<Record<string, string>> = {
  ...{
    settings: "Settings",
    rate_books: "Rate book",
    models: "Model",
    owners: "Owner",
    units: "Unit",
    jobs: "Job",
    staff: "Person",
  },
  ...{ part_kinds: "Part", offers: "Offer", donors: "Donor unit", exchange_rates: "Exchange rate", estimates: "Estimate" },
  ...{ stock_movements: "Movement of the shelf", goods_in: "Goods in", orders: "Order", order_lines: "Line of an order" },
};

const named = ({ in: table, id }: { readonly in: string; readonly id: string }): string =>
  WORDS[table] ? `${WORDS[table]} '${id}'` : `Row '${id}' of ${table}`;

const [BEFORE, LONGEST] = [20, 60];

/** Where it begins to differ from the other, if it is long. */
function quoted(value: unknown, other: unknown): string {
  if (value === null) return "nothing";
  const [text, beside] = [String(value), String(other)];
  if (text.length <= LONGEST) return `'${text}'`;
  let at = 0;
  while (at < text.length && text[at] === beside[at]) at += 1;
  const from = Math.max(0, Math.min(at - BEFORE, text.length - LONGEST));
  return `'${from > 0 ? "…" : ""}${text.slice(from, from + LONGEST)}${from + LONGEST < text.length ? "…" : ""}'`;
}

const CLOSE_OUT: Readonly<Record<Extract<Mismatch, { is: "close-out" }>["what"], string>> = {
  "content hash": "what it was reckoned from, or what it came to, does not match its content hash",
  pdf: "the PDF of the final account does not match its hash",
  revision: "it rests on a revision with another content",
  figures: "the figures are not what the work log and the agreed revision come to",
  sums: "the account's totals are not the sums of what stands above them",
  outcome: "the row that boards read is not what it came to",
};

interface AddedUp extends Pick<Sheet, "lines" | "totals"> {
  readonly adjustments: readonly Pick<Adjustment, "charge" | "amount">[];
}

/** Names of the totals that are not the sum of what stands above them. Added up here once more, without the engine. */
export function sumsThatDiffer({ lines, adjustments, totals }: AddedUp): string[] {
  const sum = (amounts: readonly number[]) => amounts.reduce((total, amount) => total + amount, 0);
  const of = (charge: boolean) => sum(adjustments.filter((each) => each.charge === charge).map(({ amount }) => amount));
  const stated = totals.linesNet - totals.allowances + totals.charges;
  const wanted: Readonly<Record<string, readonly [number, number]>> = {
    "sum of lines": [totals.linesNet, sum(lines.map(({ amount }) => amount))],
    allowances: [totals.allowances, of(false)],
    charges: [totals.charges, of(true)],
    tax: [totals.tax, sum(totals.taxGroups.map(({ tax }) => tax))],
    "total without tax": [totals.withoutTax, totals.pricesIncludeTax ? stated - totals.tax : stated],
    total: [totals.total, totals.withoutTax + totals.tax],
    due: [totals.due, totals.total - totals.prepaid],
  };
  return Object.entries(wanted).flatMap(([name, [is, should]]) => (is === should ? [] : [name]));
}
