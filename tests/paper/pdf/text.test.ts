/** What a person would add up and look for on the printed page, read back by pdftotext (poppler). */
import { describe, expect, it } from "vitest";
import { subjectOf } from "../../../src/documents/estimate/subject.js";
import { estimatePdf } from "../../../src/documents/estimatePdf.js";
import type { EstimateInput } from "../../../src/estimating/input.js";
import { AMPLIFIER, CAST, KEYBOARD, priced, TAPE_ECHO } from "../../documents/support/cast.js";
import { Paper } from "./tool.js";

const printed = async (input: EstimateInput) => Paper.of((await estimatePdf(priced(input), input)).bytes);
const withTax = (input: EstimateInput, tax: Partial<EstimateInput["rateBook"]["tax"]>): EstimateInput => ({
  ...input,
  rateBook: { ...input.rateBook, tax: { ...input.rateBook.tax, ...tax } },
});
const twoRates = [...KEYBOARD.rateBook.tax.categories, { id: "low", name: "Low rate", percent: 5.5 }];

const VARIANTS: readonly (readonly [string, EstimateInput])[] = [
  ...CAST,
  ["prices that include tax", withTax(TAPE_ECHO, { included: true })],
  ["two tax rates", withTax(KEYBOARD, { categories: twoRates, parts: "low", freight: "low" })],
  [
    "a discount, a rush and a prepaid sum",
    {
      ...AMPLIFIER,
      policy: { ...AMPLIFIER.policy, discount: { percent: 7.5, reason: "returning owner" }, rush: true, prepaid: 4_321 },
    },
  ],
];

const AMOUNT = /(-?)£([\d,]+\.\d\d)/;
const minor = (text: string): number => {
  const found = AMOUNT.exec(text);
  if (!found) throw new Error(`No amount in: ${text}`);
  return (found[1] ? -1 : 1) * Number(found[2]!.replaceAll(/[,.]/g, ""));
};
/** The amount a line ends with; a tax letter may follow. */
const atEnd = (line: string): number[] => {
  const found = /(-?£[\d,]+\.\d\d)(?:\s+[A-Z])?$/.exec(line.trimEnd());
  return found ? [minor(found[1]!)] : [];
};
const sum = (amounts: readonly number[]): number => amounts.reduce((total, amount) => total + amount, 0);

/** Lines between two that are given by their beginnings, neither included. */
function between(lines: readonly string[], from: RegExp, to: RegExp): string[] {
  const start = lines.findIndex((line) => from.test(line));
  const end = lines.findIndex((line, index) => index > start && to.test(line));
  if (start < 0 || end < 0) throw new Error(`Nothing between ${from} and ${to}`);
  return lines.slice(start + 1, end);
}

describe("what is printed adds up", () => {
  it.each(VARIANTS)("from the lines to the total, and the tax table: %s", async (_, input) => {
    const lines = (await (await printed(input)).pages()).join("\n").split("\n");
    const included = input.rateBook.tax.included;
    const after = included ? /^\s*Total, tax included/ : /^\s*Without tax/;
    const lineSum = minor(lines.find((line) => /^\s*Sum of the lines/.test(line))!);
    expect(sum(between(lines, /^\s*Item\s+Count/, /^\s*Sum of the lines/).flatMap(atEnd))).toBe(lineSum);

    const adjusted = lineSum + sum(between(lines, /^\s*Sum of the lines/, after).flatMap(atEnd));
    const total = minor(lines.filter((line) => /^\s*Total, tax included/.test(line)).at(-1)!);
    const table = between(lines, /^\s*Category\s+Rate/, /^\s*Tax is worked out/);
    const rows = table
      .filter((line) => /%/.test(line))
      .map((line) => [...line.matchAll(/-?£[\d,]+\.\d\d/g)].map(([text]) => minor(text)));
    const together = [...table.find((line) => /^\s*Together/.test(line))!.matchAll(/-?£[\d,]+\.\d\d/g)].map(([text]) =>
      minor(text),
    );
    expect([sum(rows.map(([net]) => net!)), sum(rows.map(([, tax]) => tax!))]).toEqual(together);
    expect(sum(together)).toBe(total);

    if (included) expect(adjusted).toBe(total);
    else {
      expect(adjusted).toBe(minor(lines.find((line) => /^\s*Without tax/.test(line))!));
      expect(adjusted + minor(lines.find((line) => /^\s*Tax, as in the table/.test(line))!)).toBe(total);
      expect(adjusted).toBe(together[0]);
    }
    const paid = lines.find((line) => /^\s*Paid already/.test(line));
    if (input.policy?.prepaid) expect(total + minor(paid!)).toBe(minor(lines.find((line) => /^\s*Still to pay/.test(line))!));
    else expect(paid).toBeUndefined();
  });

  it("would notice a line that is a penny out", async () => {
    const sheet = priced(KEYBOARD);
    const [first, ...rest] = sheet.lines;
    const wrong = { ...sheet, lines: [{ ...first!, amount: first!.amount + 1 }, ...rest] };
    const paper = await Paper.of((await estimatePdf(wrong, KEYBOARD)).bytes);
    const lines = (await paper.pages()).join("\n").split("\n");
    const added = sum(between(lines, /^\s*Item\s+Count/, /^\s*Sum of the lines/).flatMap(atEnd));
    expect(added).toBe(minor(lines.find((line) => /^\s*Sum of the lines/.test(line))!) + 1);
  });

  it.each(CAST)("every total and name of the sheet is found: %s", async (_, input) => {
    const sheet = priced(input);
    const { cash } = subjectOf(sheet, input);
    const text = await (await printed(input)).text();
    const { totals, ceiling, ifDeclined, deposit } = sheet;
    for (const amount of [
      totals.linesNet,
      totals.withoutTax,
      totals.tax,
      totals.total,
      ceiling.amount,
      ifDeclined.amount,
      deposit.amount,
    ]) {
      expect(text).toContain(cash(amount));
    }
    for (const name of [input.paperwork!.shop!.name, input.paperwork!.owner!.name, ...input.paperwork!.owner!.address!]) {
      expect(text).toContain(name);
    }
  });
});

describe("text from anywhere", () => {
  it.each([
    ["Czech", "Žofie Příliš-Žluťoučká"],
    ["Polish", "Łucja Gżegżółka"],
    ["Turkish", "Işıl Şoför-Ağayağız"],
    ["Greek", "Ξένια Ψυχοφθόρα"],
    ["Russian", "Съёмщиков Ёж Юрьевич"],
    ["Ukrainian", "Їжак Ґаєвич"],
    ["Vietnamese", "Nguyễn Thị Ổi"],
  ])("a %s name can be copied out again", async (_, name) => {
    const input = { ...KEYBOARD, paperwork: { ...KEYBOARD.paperwork, owner: { name, address: [`${name} 7`] } } };
    const { bytes, warnings } = await estimatePdf(priced(input), input);
    expect(warnings).toEqual([]);
    expect((await (await Paper.of(bytes)).text()).normalize("NFC")).toContain(`${name} 7`.normalize("NFC"));
  });

  it("carries values as they are written on parts", async () => {
    const found = "4k7 Ω, 2µ2, 100 nF ±5 %, ≥ 50 V → ½ × 3 °C ✓ 10 € 5 ₹";
    const input = { ...KEYBOARD, unit: { ...KEYBOARD.unit, found } };
    expect(await (await printed(input)).text()).toContain(found);
  });

  it("prints code and formulas as plain text, and keeps line ends out of names", async () => {
    const input: EstimateInput = {
      ...KEYBOARD,
      unit: { ...KEYBOARD.unit, maker: "<script>alert(1)</script>", model: '=HYPERLINK("x")\\)(' },
      paperwork: { ...KEYBOARD.paperwork, owner: { name: "Ann\r\nBcc: all" } },
    };
    const paper = await printed(input);
    await paper.check();
    const text = await paper.text();
    expect(text).toContain('<script>alert(1)</script> =HYPERLINK("x")\\)(');
    expect(text).toContain("Ann Bcc: all");
  });

  it("prints a mark in place of what the fonts lack, with the words around it in order", async () => {
    const input = { ...KEYBOARD, unit: { ...KEYBOARD.unit, reported: "hum 😀 then שלום then silence" } };
    const { bytes, warnings } = await estimatePdf(priced(input), input);
    const paper = await Paper.of(bytes);
    await paper.check();
    expect(await paper.text()).toContain("hum \ufffd then \ufffd\ufffd\ufffd\ufffd then silence");
    expect(warnings).toEqual([
      { is: "missing glyphs", text: "hum 😀 then שלום then silence", characters: ["😀", "ש", "ל", "ו", "ם"] },
    ]);
  });
});
