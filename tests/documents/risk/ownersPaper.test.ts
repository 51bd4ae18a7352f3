import { describe, expect, it } from "vitest";
import { everyLine } from "../../../src/documents/estimate/estimateBlocks.js";
import { subjectOf } from "../../../src/documents/estimate/subject.js";
import { estimatePdf } from "../../../src/documents/estimatePdf.js";
import { allowances, asked, DEMO, fixed, priced, underCeiling } from "../../estimating/pricing/asked.js";
import { textsOf } from "../support/texts.js";

describe.each(DEMO.map((input) => [input.unit.model, input] as const))("the owner's paper for %s", (_, input) => {
  for (const by of [fixed(80), underCeiling(95)]) {
    const own = priced(input, by);
    const sheet = asked(input, by);
    const { risk, ...bare } = sheet;
    const texts = textsOf(everyLine(subjectOf(sheet, own)));

    it(`prints no word and no figure of the shop's risk (${by.is})`, async () => {
      expect(texts.join("\n")).not.toMatch(
        /\bP(10|50|80|95)\b|percentile|standard deviation|confidence|loses? money|jobs? in \d|expected/i,
      );
      const cash = (amount: number) => subjectOf(sheet, own).cash(amount);
      const printed = texts.join("\n");
      for (const amount of [risk.p10, risk.p50, risk.p95, risk.expected, risk.sd].filter((each) => each !== risk.tried.price))
        expect(printed).not.toContain(cash(amount));
      expect((await estimatePdf(sheet, own)).bytes).toEqual((await estimatePdf(bare, own)).bytes);
    });
  }

  it("prints each allowance with its amount and one sentence", () => {
    const own = priced(input, fixed(80));
    const sheet = asked(input, fixed(80));
    const subject = subjectOf(sheet, own);
    const texts = textsOf(everyLine(subject));
    expect(allowances(sheet).length).toBeGreaterThan(0);
    for (const { amount } of allowances(sheet)) expect(texts).toContain(subject.cash(amount));
    expect(texts.filter((text) => /you pay no more|not charged again/.test(text)).length).toBeGreaterThanOrEqual(
      allowances(sheet).length,
    );
  });
});
