/** RFC 4180 (quoted cells, doubled quotes, CRLF), read back by papaparse; which cells a spreadsheet takes for a formula: OWASP, CSV injection. */
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { orderListCsv } from "../../src/documents/orderListCsv.js";
import { type OrderAsk, orderList } from "../../src/estimating/parts/orderList.js";
import { PLAIN } from "../estimating/cast/plainBook.js";

const NASTY = ['=HYPERLINK("x"), "roller"', "+1", "-2+3", "@sum", "line\nbreak", "plain, with a comma"];

function listOf(names: readonly string[], currency = "EUR") {
  const kinds = names.map((name, at) => ({ type: "film", kind: `k${at}`, name }));
  const ask: OrderAsk = {
    ...{ asOf: "2026-11-25", stock: new Map(), onOrder: new Map(), pullRatePerHour: 0, scarcity: PLAIN.scarcity },
    needs: kinds.map((part) => ({ job: "j", currency, part, pieces: 2, buys: [] })),
    offers: kinds.slice(1).map(({ kind }) => ({
      ...{ id: `o-${kind}`, kind, source: "=Tarnbeck", on: "2026-11-01", currency, price: 5, packSize: 1, leadDays: 3 },
      ...{ state: "new" as const, freight: 395 },
    })),
  };
  return orderList(ask);
}

const read = (csv: string) => Papa.parse<Record<string, string>>(csv, { header: true, skipEmptyLines: true });

describe("the order list as CSV", () => {
  it("reads back cell by cell, and no cell is taken for a formula", () => {
    const csv = orderListCsv(listOf(NASTY), new Map([["j", "J-2026-0007"]]));
    const { data, errors, meta } = read(csv);
    expect(errors).toEqual([]);
    expect(meta.linebreak).toBe("\r\n");
    // Five lines, their freight, and the first, which nobody offers.
    expect(data).toHaveLength(7);
    for (const row of data) for (const cell of Object.values(row)) expect(cell).not.toMatch(/^[=+\-@\t\r]/);
    expect(new Set(data.map(({ part }) => part))).toEqual(
      new Set(["Freight", ...NASTY.map((name) => (/^[=+\-@]/.test(name) ? `'${name}` : name))]),
    );
    expect(data.filter(({ part }) => part === "Freight")).toMatchObject([
      { source: "'=Tarnbeck", amount: "3.95", currency: "EUR" },
    ]);
    expect(data.at(-1)).toMatchObject({ source: "", jobs: "J-2026-0007: 2", remark: "no offer on record" });
  });

  it("keeps parts in own words of two jobs apart, though their lines bear one id, and gives each its source and price", () => {
    const part = (name: string) => ({ type: "film", kind: "own:l1", name });
    const need = (job: string, name: string, cost: number) => ({
      ...{ job, currency: "EUR", part: part(name), pieces: 1, buys: [], own: { source: "By post", cost } },
    });
    const list = orderList({
      ...{ asOf: "2026-11-25", stock: new Map(), onOrder: new Map(), pullRatePerHour: 0, scarcity: PLAIN.scarcity },
      ...{ needs: [need("a", "Voice chip", 9500), need("b", "Lamp", 120)], offers: [] },
    });
    const told = read(orderListCsv(list, new Map())).data.map((row) => [row.source, row.part, row["price of a pack"], row.jobs]);
    expect(told).toEqual([
      ["By post", "Voice chip", "95.00", "a: 1"],
      ["By post", "Lamp", "1.20", "b: 1"],
    ]);
  });

  it("writes amounts with the decimals of the currency (ISO 4217): none for JPY, three for KWD", () => {
    const amounts = (currency: string) =>
      read(orderListCsv(listOf(["a", "b"], currency), new Map())).data.map(({ amount }) => amount);
    expect(amounts("JPY")).toEqual(["10", "395", ""]);
    expect(amounts("KWD")).toEqual(["0.010", "0.395", ""]);
  });
});
