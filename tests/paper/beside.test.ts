/** What `npm run bench` sets side by side is the same work: the workbook comes to our totals, and every library draws our text in our places. */
import { beforeAll, describe, expect, it } from "vitest";
import { estimatePdf } from "../../src/documents/estimatePdf.js";
import { cameTo, pricedWithRisk, sixtyWorks, totalsOf, workbook } from "../bench/office/workbook.js";
import { DRAWERS, type Peer } from "../bench/peers/drawers.js";
import { type Drawn, drawnOf } from "../bench/peers/drawn.js";
import { cutFonts, type Fonts, wholeFonts } from "../bench/peers/fonts.js";
import { Paper, type Word } from "./pdf/tool.js";
import { recalculate } from "./workbook/recalculate.js";

const input = sixtyWorks();
const sheet = pricedWithRisk(input);

describe("the workbook of the bench", () => {
  const came = (of: typeof input) => totalsOf(recalculate(workbook(of, sheet)).get("Totals")!, of);

  it("comes to the totals of the estimate, to the cent", () => {
    expect(came(input)).toEqual(cameTo(sheet.totals));
  });

  it("comes to others with a rate that is a cent higher", () => {
    const labourClasses = input.rateBook.labourClasses.map((one) => ({ ...one, ratePerHour: one.ratePerHour + 1 }));
    expect(came({ ...input, rateBook: { ...input.rateBook, labourClasses } })).not.toEqual(cameTo(sheet.totals));
  });
});

describe.each(Object.keys(DRAWERS) as Peer[])("%s", (peer) => {
  let drawn: Drawn;
  let fonts: { readonly whole: Fonts; readonly cut: Fonts };
  beforeAll(async () => {
    drawn = await drawnOf((await estimatePdf(sheet, input)).bytes);
    const whole = await wholeFonts();
    fonts = { whole, cut: await cutFonts(whole, drawn) };
  });
  const drawnBy = async (lines: Drawn, font: "whole" | "cut") =>
    (await Paper.of(await (await DRAWERS[peer](lines, fonts[font]))())).words();

  it.each(["whole", "cut"] as const)("draws every line of our paper where it stands, with the %s font", async (font) => {
    expect(unlike(drawn, await drawnBy(drawn, font))).toEqual([]);
  });

  it("is found out when one letter is another, or one line stands a millimetre to the right", async () => {
    const [first, ...others] = drawn.pages[0]!;
    const changed = async (by: Partial<typeof first>) =>
      unlike(drawn, await drawnBy({ ...drawn, pages: [[{ ...first!, ...by }, ...others], ...drawn.pages.slice(1)] }, "cut"));
    expect(await changed({ text: first!.text.replace("L", "l") })).toHaveLength(1);
    expect(await changed({ x: first!.x + 72 / 25.4 })).toHaveLength(1);
  });
});

/** Points. */
const NEAR = 0.3;
const packed = (text: string) => text.replaceAll(/\s/g, "");

/** The lines that do not begin at their place on their page, or go on otherwise; and pages with more text than their lines have. */
function unlike({ pages }: Drawn, read: readonly (readonly Word[])[]): string[] {
  return pages.flatMap((lines, page) => {
    const words = read[page]!;
    const lost = lines.filter(({ text, x, y }) => {
      if (packed(text) === "") return false;
      const onward = words.filter(({ right, top, bottom }) => right > x && top < y && y < bottom).sort((a, b) => a.left - b.left);
      const at = packed(onward.map((word) => word.text).join("")).indexOf(packed(text));
      const left = onward[0]?.left ?? Number.POSITIVE_INFINITY;
      // What goes on without a space after the line before it begins within a word.
      return left > x - NEAR ? left > x + NEAR || at !== 0 : at < 1;
    });
    const length = (all: readonly { readonly text: string }[]) => packed(all.map(({ text }) => text).join("")).length;
    return [...lost.map(({ text }) => text), ...(length(lines) === length(words) ? [] : [`page ${page + 1}`])];
  });
}
