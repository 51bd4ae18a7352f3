import { expect, it } from "vitest";
import { subjectOf } from "../../src/documents/estimate/subject.js";
import { intakeReceiptBlocks } from "../../src/documents/intakeReceiptPdf.js";
import { estimate } from "../../src/estimating/estimate.js";
import { demoInput } from "../pages/cast/bench.js";
import { textsOf } from "./support/texts.js";

const AT = "https://shop.example/jobs/j1";

function textsFor(policy: { diagnosis?: true; diagnosisLimit?: number }, language: "en" | "de" = "en"): string[] {
  const { map: _, ...whole } = demoInput("string-organ-keyboard");
  const { revision: __, ...paperwork } = whole.paperwork ?? {};
  const input = { ...whole, items: [], policy, paperwork: { ...paperwork, number: "J-2026-0009", language } };
  const outcome = estimate(input);
  if (!outcome.ok) throw new Error("Nothing to do has a price.");
  return textsOf(intakeReceiptBlocks(subjectOf(outcome.sheet, input), AT));
}

it("says what came in, how it looked, and how far it may be opened; the tag names the unit and the number", () => {
  const texts = textsFor({ diagnosisLimit: 18000 });
  expect(texts.filter((text) => text === "J-2026-0009")).toHaveLength(2);
  expect(texts).toEqual(expect.arrayContaining(["Intake receipt", "What we may do", "Signature", "Quellmarsh Solivane 49"]));
  expect(texts.join("\n")).toContain("for at most £180.00, tax included. We do nothing beyond that");
});

it("names the diagnosis fee where no limit is agreed, and promises to cost nothing where there is no fee", () => {
  const fee = textsFor({ diagnosis: true }).join("\n");
  expect(fee).toContain("for the diagnosis fee of £54.00, tax included.");
  // What declining costs has the opening in it, and the owner signs here first.
  expect(fee).toContain("If you then decline our estimate, opening and closing it is owed too");
  // By the name it has on every other paper.
  expect(textsFor({ diagnosis: true }, "de").join("\n")).toContain("gegen die Pauschale für die Fehlersuche von £54.00");
  expect(textsFor({ diagnosis: true }, "de").join("\n")).toContain("schulden Sie auch das Öffnen und Schließen");
  expect(textsFor({}).join("\n")).toContain("We do nothing that costs you anything");
  expect(textsFor({ diagnosisLimit: 18000 }, "de").join("\n")).toContain("Wir dürfen das Gerät für höchstens £180.00");
});

it("says when it came in by a word that has room beside the day", () => {
  expect(textsFor({}, "de")).toContain("Angenommen");
});
