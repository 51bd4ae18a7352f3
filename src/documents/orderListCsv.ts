/** The order list as CSV (RFC 4180): a row for each line, one for the freight of each source, then what no offer covers. */
import Papa from "papaparse";
import { decimalsOf } from "../estimating/money/currency.js";
import type { OrderList } from "../estimating/parts/orderList.js";
import { UNCOVERED_TEXT } from "../wording/reasons.js";

const COLUMNS = [
  ...["source", "part", "kind", "state", "offered on", "pieces wanted", "packs", "pack size", "pieces", "fewest packs"],
  ...["price of a pack", "amount", "currency", "lead days", "jobs", "remark"],
] as const;
type Row = Partial<Record<(typeof COLUMNS)[number], string | number>>;

/** `jobs`: numbers by id. Amounts are decimals of the currency; texts that a spreadsheet would take for a formula are guarded. */
export function orderListCsv({ sources, uncovered }: OrderList, jobs: ReadonlyMap<string, string>): string {
  const named = (served: readonly { readonly job: string; readonly pieces: number }[]) =>
    served.map(({ job, pieces }) => `${jobs.get(job) ?? job}: ${pieces}`).join("; ");
  const rows: Row[] = [];
  for (const { source, currency, lines, freight } of sources) {
    for (const { part, offer, pieces, packs, cost, jobs: served, chance } of lines)
      rows.push({
        ...{ source, part: part.name, kind: part.kind ?? "", state: offer.state, "offered on": offer.on },
        ...{ "pieces wanted": pieces, packs, "pack size": offer.packSize, pieces: packs * offer.packSize },
        ...{ "fewest packs": offer.minimumPacks ?? 1, "price of a pack": amount(offer.price, currency) },
        ...{ amount: amount(cost, currency), currency, "lead days": offer.leadDays, jobs: named(served) },
        ...(chance !== undefined && { remark: `chance of enough good pieces ${Math.round(chance * 1000) / 10} %` }),
      });
    if (freight > 0) rows.push({ source, part: "Freight", amount: amount(freight, currency), currency });
  }
  for (const { part, pieces, jobs: served, why, own } of uncovered)
    rows.push({
      part: part.name,
      kind: part.kind ?? "",
      "pieces wanted": pieces,
      jobs: named(served),
      remark: UNCOVERED_TEXT[why],
      ...(own && {
        source: own.source ?? "",
        "price of a pack": amount(own.cost, own.currency),
        "pack size": 1,
        currency: own.currency,
      }),
    });
  const data = rows.map((row) => COLUMNS.map((column) => row[column] ?? ""));
  return `${Papa.unparse({ fields: [...COLUMNS], data }, { escapeFormulae: true, newline: "\r\n" })}\r\n`;
}

/** Minor units, 0 or more, as a plain decimal: 1234 of a currency with two decimals is 12.34. */
function amount(minor: number, currency: string): string {
  const decimals = decimalsOf(currency) ?? 2;
  const digits = String(minor).padStart(decimals + 1, "0");
  return decimals === 0 ? digits : `${digits.slice(0, -decimals)}.${digits.slice(-decimals)}`;
}
