/** The shop's page as other readers see it: pdftotext for its words, pdftocairo (poppler) for the curve it draws. */

import { execFile } from "node:child_process";
import { promisify } from "node:util";
import { describe, expect, it } from "vitest";
import { estimatePdf } from "../../../src/documents/estimatePdf.js";
import { shopCopyPdf } from "../../../src/documents/shopCopyPdf.js";
import type { EstimateInput } from "../../../src/estimating/input.js";
import { riskCurve } from "../../../src/wording/riskCurve.js";
import { CAST, KEYBOARD, priced } from "../../documents/support/cast.js";
import { CERTAIN, RISK } from "../../documents/support/risk.js";
import { Paper } from "./tool.js";

const run = promisify(execFile);
const copyOf = async (input: EstimateInput, risk = RISK) =>
  Paper.of((await shopCopyPdf({ ...priced(input), risk }, input)).bytes);
const onPaper = (input: EstimateInput, paper: "A4" | "Letter"): EstimateInput => ({
  ...input,
  paperwork: { ...input.paperwork, paper },
});

describe("the shop's copy", () => {
  it.each(
    CAST.flatMap(([name, input]) => (["A4", "Letter"] as const).map((paper) => [name, paper, onPaper(input, paper)] as const)),
  )("is the estimate and one page: %s on %s", async (_, __, input) => {
    const estimate = await (await Paper.of((await estimatePdf(priced(input), input)).bytes)).pages();
    const paper = await copyOf(input);
    await paper.check();
    const pages = await paper.pages();
    expect(pages).toHaveLength(estimate.length + 1);
    expect(pages.slice(0, -1).join("\n")).not.toContain("For the shop only");
    const last = pages.at(-1)!;
    for (const text of ["For the shop only", "What the job may cost", "Where the risk comes from", "P80", "do not add up"])
      expect(last).toContain(text);
  });

  it("draws the curve to scale, as pdftocairo reads its points", async () => {
    const paper = await copyOf(KEYBOARD);
    const page = String((await paper.pages()).length);
    const { stdout: svg } = await run("pdftocairo", ["-svg", "-f", page, "-l", page, paper.path, "-"], {
      maxBuffer: 64 * 1024 * 1024,
    });
    const { points } = riskCurve(RISK, 5);
    const drawn = [...svg.matchAll(/<path (?:fill="none"|style="fill:none)[^>]*\bd="\s*(M[^"]+)"/g)]
      .map(([, path]) => [...path!.matchAll(/(-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)] as const))
      .find((path) => path.length === points.length)!;
    const [first, last] = [points[0]!, points.at(-1)!];
    const [[x0, y0], [x1, y1]] = [drawn[0]!, drawn.at(-1)!];
    points.forEach(({ amount, chance }, index) => {
      const [x, y] = drawn[index]!;
      expect((x - x0) / (x1 - x0)).toBeCloseTo((amount - first.amount) / (last.amount - first.amount), 3);
      expect((y - y0) / (y1 - y0)).toBeCloseTo(chance / last.chance, 3);
    });
    expect(points.filter(({ amount }) => RISK.curve.some((each) => each.amount === amount)).length).toBeGreaterThan(20);
    expect(Math.abs(y1 - y0)).toBeGreaterThan(90);
    expect(x1 - x0).toBeGreaterThan(300);
  });

  it("describes the chart for those who do not see it", async () => {
    const tags = await (await copyOf(KEYBOARD)).info("-struct");
    expect(tags).toMatch(/Figure/);
    const bytes = Buffer.from((await shopCopyPdf({ ...priced(KEYBOARD), risk: RISK }, KEYBOARD)).bytes).toString("latin1");
    const said = [...bytes.matchAll(/\/Alt<FEFF([0-9A-F]+)>/g)].map(([, hex]) =>
      Buffer.from(hex!, "hex").swap16().toString("utf16le"),
    );
    expect(said.some((text) => text.startsWith("A curve that rises from £"))).toBe(true);
  });

  it("shows a job without risk as well", async () => {
    const paper = await copyOf(KEYBOARD, CERTAIN);
    await paper.check();
    expect((await paper.pages()).at(-1)).toContain("no job");
  });
});
