/**
 * Quotations against the OASIS UBL 2.1 schema, by xmllint. The schema stands beside the checkout in ../shared/reference/ubl21, not in
 * it; continuous integration always has it, elsewhere the tests that need it run where it is there.
 */
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import oasis from "../../fixtures/published/oasis-quotation-2.1.json";
import { quotationXml } from "../../src/documents/quotationXml.js";
import { estimate } from "../../src/estimating/estimate.js";
import type { EstimateInput } from "../../src/estimating/input.js";
import { read } from "../documents/quotation.js";
import { DEMO, ORGAN, revision, sheetOf } from "../estimating/agreement/demo.js";
import { job, on } from "../estimating/cast/organ.js";

const UBL = fileURLToPath(new URL("../../../shared/reference/ubl21/", import.meta.url));
const SCHEMA = join(UBL, "maindoc/UBL-Quotation-2.1.xsd");
const here = existsSync(SCHEMA);

it("has the schema at hand in continuous integration", () => expect(here || !process.env.CI).toBe(true));

describe.runIf(here)("the OASIS schema", () => {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "ohmwright-quotation-"));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  /** Each document's faults; one run of xmllint reads the schema once for all. */
  function faults(documents: readonly string[]): string[][] {
    const files = documents.map((xml, at) => {
      const file = join(folder, `quotation-${at}.xml`);
      writeFileSync(file, xml);
      return file;
    });
    const { stderr } = spawnSync("xmllint", ["--noout", "--nonet", "--schema", SCHEMA, ...files], {
      encoding: "utf8",
      maxBuffer: 1 << 26,
    });
    const said = stderr.split("\n");
    for (const file of files)
      expect(
        said.some((line) => line.startsWith(file)),
        `xmllint speaks of ${file}`,
      ).toBe(true);
    return files.map((file) => said.filter((line) => line.startsWith(file) && line !== `${file} validates`));
  }

  const made = (input: EstimateInput) =>
    quotationXml(sheetOf(input), input, { number: input.paperwork?.number ?? "J-1", revision: 1, date: "2026-11-20" });

  it("takes its own examples, so that it is read rightly", () => {
    const examples = ["UBL-Quotation-2.0-Example.xml", "UBL-Quotation-2.1-Example.xml"];
    for (const found of faults(examples.map((name) => readFileSync(join(UBL, "examples", name), "utf8"))))
      expect(found).toEqual([]);
  });

  it("takes every demo job, priced with tax and without, with parties and without", () => {
    const included = (input: EstimateInput): EstimateInput => ({
      ...input,
      rateBook: { ...input.rateBook, tax: { ...input.rateBook.tax, included: true } },
    });
    const { paperwork: _, ...bare } = ORGAN;
    const registered: EstimateInput = {
      ...ORGAN,
      paperwork: { ...ORGAN.paperwork, shop: { ...ORGAN.paperwork!.shop!, registration: "DEMO-1" } },
    };
    for (const found of faults([...DEMO, ...DEMO.map(included), bare, registered].map(made))) expect(found).toEqual([]);
  });

  it("takes any revision of a demo job, one with nothing chosen yet, and texts of any characters", () => {
    const revisions = fc
      .sample(revision, 60)
      .flatMap(({ after }) => (estimate(after).ok ? [after] : []))
      .slice(0, 20);
    expect(revisions.length).toBeGreaterThan(10);
    const undecided = job({ items: [on("top", "a", { certainty: { is: "optional", chosen: false } })] });
    const odd = fc.sample(fc.string({ unit: "binary", maxLength: 30 }), 10).map(
      (name): EstimateInput => ({
        ...ORGAN,
        paperwork: {
          ...ORGAN.paperwork,
          shop: { name, address: [name], email: name, phone: name, taxNumber: name, registration: name },
        },
      }),
    );
    for (const found of faults([...revisions, undecided, ...odd].map(made))) expect(found).toEqual([]);
  });

  it("refuses a quotation with a needed element gone, out of order or misnamed: the check can fail", () => {
    const good = made(ORGAN);
    const spoilt = [
      good.replace(/<cbc:IssueDate>[^<]*<\/cbc:IssueDate>/, ""),
      good.replace(/<cac:QuotationLine>[\s\S]*<\/cac:QuotationLine>/, ""),
      good.replace(/(<cbc:PricingCurrencyCode>[^<]*<\/cbc:PricingCurrencyCode>)([\s\S]*?)(<cac:ValidityPeriod>)/, "$3$1$2"),
      good.replace("<cac:TaxTotal>", "<cac:TaxTotals>").replace("</cac:TaxTotal>", "</cac:TaxTotals>"),
    ];
    for (const found of faults(spoilt)) expect(found.length).toBeGreaterThan(0);
  });
});

describe.runIf(here)("the OASIS example of a quotation", () => {
  const example = here ? read(readFileSync(join(UBL, "examples/UBL-Quotation-2.1-Example.xml"), "utf8")) : undefined;
  const total = (name: string) => example!.text(`QuotedMonetaryTotal/${name}`);

  it("has the figures that the published checks were copied from", () => {
    expect(["LineExtensionAmount", "TaxExclusiveAmount", "TaxInclusiveAmount", "PayableAmount"].map(total)).toEqual([
      oasis.lineExtensionAmount,
      oasis.taxExclusiveAmount,
      oasis.taxInclusiveAmount,
      oasis.payableAmount,
    ]);
    expect(
      example!.all("QuotationLine").map((line) => ({
        quantity: Number(line.text("LineItem/Quantity")),
        price: line.text("LineItem/Price/PriceAmount"),
        net: line.text("LineItem/LineExtensionAmount"),
        tax: line.text("LineItem/TotalTaxAmount"),
      })),
    ).toEqual(oasis.lines);
  });

  it("has the sum of its lines' tax where the net total belongs", () => {
    const cents = (text: string) => Math.round(Number(text) * 100);
    const tax = oasis.lines.reduce((sum, line) => sum + cents(line.tax), 0);
    expect(cents(total("TaxExclusiveAmount"))).toBe(tax);
    expect(cents(total("TaxExclusiveAmount"))).not.toBe(cents(total("LineExtensionAmount")));
  });
});
