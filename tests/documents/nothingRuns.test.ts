/** A paper is read, and does nothing (ISO 32000-1, 12.6: actions). */
import { expect, it } from "vitest";
import keyboard from "../../fixtures/demo/string-organ-keyboard.json" with { type: "json" };
import echo from "../../fixtures/demo/tape-echo.json" with { type: "json" };
import { benchSheetPdf } from "../../src/documents/benchSheetPdf.js";
import { estimatePdf } from "../../src/documents/estimatePdf.js";
import { estimate } from "../../src/estimating/estimate.js";
import type { EstimateInput } from "../../src/estimating/input.js";

it("no paper holds a script, an action on opening, a form that is sent or a file", async () => {
  for (const given of [keyboard, echo] as unknown as EstimateInput[])
    for (const detail of ["letter", "every line"] as const) {
      const input = {
        ...given,
        paperwork: { ...given.paperwork, detail, link: "https://estimates.example/o", code: "ABCDE-FGHJK" },
      };
      const outcome = estimate(input);
      if (!outcome.ok) throw new Error("The demo has problems.");
      for (const { bytes } of [await estimatePdf(outcome.sheet, input), await benchSheetPdf(outcome.sheet, input)]) {
        const text = Buffer.from(bytes).toString("latin1");
        expect(text).toContain("/Catalog");
        expect(text).not.toMatch(/\/(JS|JavaScript|OpenAction|AA|Launch|SubmitForm|EmbeddedFile|RichMedia|ObjStm)\b/);
      }
    }
});
