/** A receipt as an owner reads it back, word by word: pdftotext (poppler). People and figures invented. */
import { expect, it } from "vitest";
import { receiptPdf } from "../../../src/documents/receiptPdf.js";
import { priced, TAPE_ECHO } from "../../documents/support/cast.js";
import { Paper } from "./tool.js";

const PAPERWORK = {
  ...{ number: "J-2026-0002", chainHead: "7-0123456789abcdef" },
  shop: { name: "Lanternfold Electronics Repair", address: ["4 Coalhatch Row", "Dunnowfield"] },
  owner: { name: "Ottilie Vantongeren", address: ["Larkholt 3"] },
};
const paid = { for: "deposit", amount: 8084, on: "2026-11-26", how: "card", by: "Wilhelmina Stråhle" } as const;

async function read(
  payment: Omit<typeof paid, "for" | "how" | "amount"> & { amount: number } & { for: "deposit" | "refund"; how: "card" | "cash" },
  language = {},
) {
  const input = { ...TAPE_ECHO, paperwork: { ...TAPE_ECHO.paperwork, ...PAPERWORK, date: payment.on, ...language } };
  const { bytes } = await receiptPdf(payment, { sheet: priced(input), input });
  const paper = await Paper.of(bytes);
  expect((await paper.pages()).length).toBe(1);
  return { text: await paper.text(), bytes };
}

const UNIT =
  "Hallorin Skep 3 14 0733 £620.00 Worn: dusty, some stiff hardware, old repairs one spare tape loop, foot switch none";
const HEAD = "Lanternfold Electronics Repair 4 Coalhatch Row, Dunnowfield";
const FOOT = "Record 7-0123456789abcdef · Lanternfold Electronics Repair Page 1 of 1";
const sameWords = (text: string, words: readonly string[]) => expect(text.trim()).toBe(words.join(" "));

it("says of a deposit who paid what to whom, for what, when and how, by the number of the job and of no revision", async () => {
  const { text, bytes } = await read(paid);
  sameWords(text, [
    `Receipt ${HEAD} Number Date For How Received by Owner Name Address`,
    "J-2026-0002 26 November 2026 Deposit card Wilhelmina Stråhle",
    "Unit Ottilie Vantongeren Larkholt 3 Maker, model Serial Declared value Grade Came with Stored data",
    `${UNIT} Amount £80.84 Deposit received on 26 November 2026: £80.84 ${FOOT}`,
  ]);
  expect((await read(paid)).bytes).toEqual(bytes);
});

it("says of a refund that it was given back, and by whom", async () => {
  const { text } = await read({ ...paid, for: "refund", how: "cash", amount: 1234 });
  sameWords(text, [
    `Receipt ${HEAD} Number Date For How Given back by Owner Name Address`,
    "J-2026-0002 26 November 2026 Refund cash Wilhelmina Stråhle",
    "Unit Ottilie Vantongeren Larkholt 3 Maker, model Serial Declared value Grade Came with Stored data",
    `${UNIT} Amount £12.34 Given back on 26 November 2026: £12.34 ${FOOT}`,
  ]);
});

it("is in the owner's language", async () => {
  const { text } = await read({ ...paid, for: "refund" }, { language: "de", locale: "de-DE" });
  for (const words of [
    `Zahlungsbeleg ${HEAD} Nummer Datum Wofür Zahlungsart Zurückgezahlt`,
    "J-2026-0002 26. November 2026 Rückzahlung Karte Wilhelmina Stråhle von",
    "Betrag 80,84 £ Zurückgezahlt am 26. November 2026: 80,84 £",
  ])
    expect(text).toContain(words);
});

it("says what is still to pay by now, once something is agreed", async () => {
  const input = { ...TAPE_ECHO, paperwork: { ...TAPE_ECHO.paperwork, ...PAPERWORK, date: paid.on } };
  const { bytes } = await receiptPdf(paid, { sheet: priced(input), input }, { due: 5005 });
  expect(await (await Paper.of(bytes)).text()).toContain("Amount Still to pay £80.84 £50.05");
});
