import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { COLUMNS, kindRows } from "../../../src/acts/importRows.js";
import { mapColumns, type Table } from "../../../src/acts/tableRows.js";
import { csvText } from "../../../src/documents/csvText.js";
import type { RateBook } from "../../../src/estimating/input.js";
import { decode } from "../../../src/http/dataIn/decode.js";
import { readTable } from "../../../src/http/dataIn/table.js";
import { KIND_COLUMNS } from "../../../src/http/dataOut/sheets.js";
import { runs } from "../../setup/runs.js";

const rateBook = JSON.parse(readFileSync("fixtures/demo/rate-book.json", "utf8")) as RateBook;
const bytes = (...parts: (string | number[])[]) =>
  Buffer.concat(parts.map((part) => (typeof part === "string" ? Buffer.from(part, "utf8") : Buffer.from(part))));

const kindsIn = (table: Table, mark: "." | ",") => {
  const mapping = mapColumns(COLUMNS["part-kinds"], table, undefined, {}, mark);
  return kindRows(table, mapping, rateBook, new Map(), new Set(), () => "new");
};

const sound = (text: string) => {
  const table = readTable(text);
  if (!table.ok) throw new Error(JSON.stringify(table.faults));
  return table;
};

describe("bytes", () => {
  const text = "name,Größe µ\n";
  const utf16 = Buffer.from(text, "utf16le");
  // Byte order marks: Unicode 15, 23.8 (from memory). 0xB5 is the micro sign and 0xDF the sharp s of Windows-1252 (from memory).
  it.each([
    ["UTF-8", bytes(text), /^UTF-8$/],
    ["UTF-8 with a mark", bytes([0xef, 0xbb, 0xbf], text), /^UTF-8 with a byte order mark$/],
    ["UTF-16 little endian", bytes([0xff, 0xfe], [...utf16]), /^UTF-16, little endian$/],
    ["UTF-16 big endian", bytes([0xfe, 0xff], [...Buffer.from(utf16).swap16()]), /^UTF-16, big endian$/],
    ["UTF-16 without a mark", utf16, /^UTF-16, little endian, without a byte order mark$/],
    ["Windows-1252", Buffer.from(text, "latin1"), /^Windows-1252/],
  ])("of %s are read, and the encoding is said", (_, given, encoding) => {
    expect(decode(given)).toEqual({ ok: true, text, encoding: expect.stringMatching(encoding) });
  });

  it.each([
    ["a workbook", bytes([0x50, 0x4b, 3, 4, 0, 0]), /workbook or an archive/],
    ["no text", bytes("name", [0, 0, 0, 1, 2, 0]), /not text: byte 5 is 0/],
    ["neither encoding", bytes("a", [0xe4, 0x81]), /neither UTF-8 nor Windows-1252: byte 3 is 81/],
  ])("of %s are refused by name", (_, given, why) => {
    expect(decode(given)).toEqual({ ok: false, why: expect.stringMatching(why) });
  });

  it("of any kind never throw, as text, as a table or as part kinds", () => {
    const pieces = fc.oneof(
      fc.uint8Array({ maxLength: 40 }),
      fc.constantFrom(...['"', ",", "\r\n", ";", "\t", "name,type\n", "\ufeff", "'="].map((piece) => bytes(piece))),
    );
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 12 }), (parts) => {
        const decoded = decode(Buffer.concat(parts));
        if (!decoded.ok) return;
        const table = readTable(decoded.text);
        if (!table.ok) {
          expect(table.faults.length).toBeGreaterThan(0);
          return;
        }
        expect(kindsIn(table, ".").rows.length).toBe(table.rows.length);
      }),
      runs(300),
    );
  });
});

describe("a table", () => {
  it.each([
    ["a,b\r\n1,2\r\n", ","],
    ["a;b\n1;2\n", ";"],
    ["a\tb\r1\t2\r", "\t"],
    ['"a,x";b\n1;2\n', ";"],
    ["a\n1\n", ","],
  ] as const)("%j is divided by %j", (text, delimiter) => {
    const table = sound(text);
    expect([table.delimiter, table.rows.length, table.rows[0]!.cell(table.headings[0]!)]).toEqual([delimiter, 1, "1"]);
  });

  // RFC 4180, section 2, rule 6 and 7 (from memory).
  it("keeps breaks, commas and quotes within quotes, and numbers rows as a spreadsheet does", () => {
    const table = sound('aaa,bbb\r\n"b\r\nbb","c,""c"\r\n\r\nzzz,yyy\r\n');
    expect(table.rows.map(({ number, cell }) => [number, cell("aaa"), cell("bbb")])).toEqual([
      [2, "b\r\nbb", 'c,"c'],
      [4, "zzz", "yyy"],
    ]);
  });

  it.each([
    ["", 1, /nothing to read/],
    ["a,a\n1,2\n", 1, /Two columns are called 'a'/],
    ["a,b\n", 2, /no row below/],
    ["a,b\n1,2,3\n", 2, /more cells than there are headings: '3'/],
    ['a,b\n"1,2\n', 2, /quotation mark/],
    [`a\n${"1\n".repeat(5001)}`, 5002, /more than 5000 rows/],
  ])("%j is refused", (text, row, why) => {
    expect(readTable(text)).toEqual({ ok: false, faults: [{ row, why: expect.stringMatching(why) }] });
  });
});

describe("part kinds", () => {
  const read = (text: string) => {
    const table = sound(text);
    return kindsIn(table, ",");
  };

  it("are read by the names of their columns, with units and the decimal comma of the locale", () => {
    const { rows, changes } = read("Category;Description;Value;Voltage;Tolerance\nFilm capacitor;Film 100 nF;100n;63 V;2,5 %\n");
    expect(rows).toEqual([{ row: 2, is: "new", name: "Film 100 nF", faults: [] }]);
    expect(changes).toEqual([
      {
        id: "film-100-nf",
        value: { type: "film", name: "Film 100 nF", value: "100n", ratedVolts: 63, tolerancePercent: 2.5 },
      },
    ]);
  });

  it.each([
    ["type,name\nfluff,X\n", "type: Part kind 'X': the rate book has no part type 'fluff'; choose one of "],
    ["type,name\nfilm,\n", "name: Name is missing; write something."],
    ["type,name,value\nfilm,X,4x7\n", "value: Value: '4x7' cannot be read as a value; write it as 4u7, 100n or 4k7."],
    ["type,name,voltage\nfilm,X,high\n", "voltage: Rated volts: 'high' is not a number; write it like 12 or 1.5."],
    ["type,name,stock\nfilm,X,1.5\n", "stock: In stock: '1.5' is not whole; give a whole number."],
    [
      "type,name,scarcity\nfilm,X,rare\n",
      "scarcity: Scarcity is 'rare'; give one of 'in stock', 'to order', 'scarce', 'donor only'.",
    ],
    ["type,name,audioGrade\nfilm,X,perhaps\n", "audioGrade: Audio grade: 'perhaps' is neither yes nor no."],
    ["id,type,name\na,film,X\na,film,Y\n", "id: Id: 'a' stands in row 2 too."],
  ])("%j: %s", (text, wanted) => {
    const { rows, changes } = read(text);
    const faults = rows.flatMap((row) => row.faults.map(({ column, why }) => `${column}: ${why}`));
    expect([faults, changes]).toEqual([[expect.stringContaining(wanted)], []]);
  });

  it("come back as they were from what was exported, whatever their texts", () => {
    // What a name and a note may be: no control characters, a name in one line.
    const noted = fc.string({ unit: "binary" }).map((text) => text.replaceAll(/[\p{Cc}\p{Cs}\u2028\u2029]/gu, ""));
    const line = fc
      .oneof(noted, fc.constantFrom("'", "'=1", "=1", "-12", '"', ", ", "';\""))
      .filter((text) => text.trim() !== "" && text.length <= 500);
    const kind = fc.record({
      name: line,
      notes: fc.option(line, { nil: undefined }),
      form: fc.option(line, { nil: undefined }),
      stock: fc.option(fc.nat(10_000), { nil: undefined }),
    });
    fc.assert(
      fc.property(fc.array(kind, { minLength: 1, maxLength: 5 }), (kinds) => {
        const kept = { version: 1, createdAt: "", updatedAt: "" };
        const rows = kinds.map((each, at) => ({ ...each, ...kept, id: `k${at}`, type: "film", value: "100n" }) as never);
        const text = csvText([
          Object.keys(KIND_COLUMNS),
          ...rows.map((row) => Object.values(KIND_COLUMNS).map((cell) => cell(row))),
        ]);
        const { changes, rows: reports } = read(text);
        expect(reports.flatMap(({ faults }) => faults)).toEqual([]);
        const wanted = kinds.map((each) => JSON.parse(JSON.stringify({ ...each, type: "film", value: "100n" })));
        expect(changes.map(({ value }) => value)).toEqual(wanted);
      }),
      runs(200),
    );
  });
});
