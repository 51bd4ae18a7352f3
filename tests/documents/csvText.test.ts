import fc from "fast-check";
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { csvText, guarded, unguarded } from "../../src/documents/csvText.js";

describe("CSV", () => {
  // RFC 4180, section 2, rules 1 and 5 to 7 (from memory).
  it("ends each row with CRLF, quotes what holds a comma, a quote or a break, and doubles quotes", () => {
    expect(csvText([["aaa", "bbb", "ccc"]])).toBe("aaa,bbb,ccc\r\n");
    expect(csvText([['b"bb', "b\r\nbb", "b,bb", ""]])).toBe('"b""bb","b\r\nbb","b,bb",\r\n');
  });

  // OWASP, CSV injection: = + - @ tab and carriage return at the start of a cell.
  it.each(["=1+1", "+44 20", "-1", "@sum", "\t=1", "\r=1"])(
    "puts an apostrophe in front of %j, and takes it off again",
    (text) => {
      expect(guarded(text)).toBe(`'${text}`);
      expect(unguarded(guarded(text))).toBe(text);
    },
  );

  it("leaves numbers numbers", () => {
    expect(csvText([[-12.5, { digits: "-12.50" }, 0, true, undefined]])).toBe("-12.5,-12.50,0,yes,\r\n");
  });

  it("brings any text back as it was", () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.array(fc.oneof(fc.string({ unit: "binary" }), fc.constantFrom("'", "''=", "'=", "\r", "\n", "\uFEFFx")), {
            minLength: 2,
            maxLength: 2,
          }),
        ),
        (rows) => {
          const text = csvText(rows);
          const { data } = Papa.parse<string[]>(text, { delimiter: ",", newline: "\r\n" });
          expect(data.slice(0, -1).map((row) => row.map(unguarded))).toEqual(rows);
        },
      ),
    );
  });
});

it.each(["\uff1d1+1", "\ufeff=1+1", "\u200b=1+1", " =1+1", "\u00a0\uff0b1", "  @SUM(A1)", "'\uff1d1"])(
  "guards %j, and it comes back whole",
  (text) => {
    expect(guarded(text)).toBe(`'${text}`);
    expect(unguarded(guarded(text))).toBe(text);
    expect(guarded(text.slice(-1))).toBe(text.slice(-1));
  },
);
