/** The QR code as drawn on the page, read by jsQR: a reader that shares nothing with the writer. */
import jsQR from "jsqr";
import { describe, expect, it } from "vitest";
import { estimatePdf } from "../../../src/documents/estimatePdf.js";
import { KEYBOARD, priced } from "../../documents/support/cast.js";
import { Paper } from "./tool.js";

describe("the code beside the answer", () => {
  it.each([
    ["a short link", "https://lanternfold.example/e/1"],
    ["the demo link", KEYBOARD.paperwork!.link!],
    ["a link with a long secret", `https://lanternfold.example/estimates/J-2026-0001?key=${"Zq7-_x9A".repeat(24)}`],
  ])("leads to the owner's page: %s", async (_, link) => {
    const input = { ...KEYBOARD, paperwork: { ...KEYBOARD.paperwork, link } };
    const paper = await Paper.of((await estimatePdf(priced(input), input)).bytes);
    const pages = await paper.pages();
    const page = pages.findIndex((text) => text.includes("Your answer")) + 1;
    const { width, height, levels } = await paper.raster(page, 150);
    const rgba = new Uint8ClampedArray(levels.length * 4);
    for (const [at, level] of levels.entries()) rgba.set([level, level, level, 255], 4 * at);
    expect(jsQR(rgba, width, height)?.data).toBe(link);
    expect(pages[page - 1]!.replaceAll(/\s/g, "")).toContain(`Yourpage:${link.slice(0, 60)}`);
  });

  it("is left out when there is no link", async () => {
    const { link: _, ...paperwork } = KEYBOARD.paperwork!;
    const input = { ...KEYBOARD, paperwork };
    const paper = await Paper.of((await estimatePdf(priced(input), input)).bytes);
    expect((await paper.pages()).join("\n")).not.toMatch(/your page|scan/i);
  });
});
