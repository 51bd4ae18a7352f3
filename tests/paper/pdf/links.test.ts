/** Link annotations (ISO 32000-1, 12.5.6.5) as poppler and pdf-lib's parser read them. */
import { PDFArray, PDFDict, PDFDocument, PDFName, PDFNumber, type PDFObject, PDFString } from "pdf-lib";
import { describe, expect, it } from "vitest";
import { estimatePdf } from "../../../src/documents/estimatePdf.js";
import type { Paperwork } from "../../../src/estimating/input.js";
import { KEYBOARD, priced } from "../../documents/support/cast.js";
import { Paper } from "./tool.js";

const printed = async (paperwork: Partial<Paperwork>): Promise<Uint8Array> => {
  const input = { ...KEYBOARD, paperwork: { ...KEYBOARD.paperwork, ...paperwork } };
  return (await estimatePdf(priced(input), input)).bytes;
};
const SECRET = "https://lanternfold.example/o#Zq7-_x9AZq7-_x9AZq7-_x9AZq7-_x9A";

describe("the owner's link", () => {
  it("can be pressed, where it is printed and on the code to scan, and leads to the page with its secret", async () => {
    const paper = await Paper.of(await printed({ link: SECRET, code: "7KQX-M4TD" }));
    await paper.check();
    const last = (await paper.pages()).length;
    const led = (await paper.info("-url"))
      .split("\n")
      .flatMap((line) => /^\s*(\d+)\s+Annotation\s+(\S+)/.exec(line)?.slice(1) ?? []);
    expect(led).toEqual([String(last), SECRET, String(last), SECRET]);
    expect(await paper.text()).toContain(
      "https://lanternfold.example/o. Type the number J-2026-0001 and the code 7KQX-M4TD there.",
    );
    expect(await paper.text()).not.toContain("Zq7-_x9A");
  });

  it("is tagged as a link: the text with its place on the page, and the picture with its own", async () => {
    const tags = await (await Paper.of(await printed({ link: SECRET, code: "7KQX-M4TD" }))).info("-struct-text");
    expect(tags).toMatch(/Link \(inline\)\s+"https:\/\/lanternfold\.example\/o"\s+Object \d+ 0/);
    expect(tags).toMatch(/Link \(inline\)\s+Figure:\s+\/BBox \[[\d. ]+\]\s+""\s+Object \d+ 0/);
  });

  it("is found again from the annotation through the parent tree, and lies within the page", async () => {
    const file = await PDFDocument.load(await printed({ link: SECRET, code: "7KQX-M4TD" }));
    const { context, catalog } = file;
    const dict = (of: PDFObject | undefined): PDFDict => context.lookup(of, PDFDict);
    const numbers = dict(dict(catalog.get(PDFName.of("StructTreeRoot"))).get(PDFName.of("ParentTree"))).lookup(
      PDFName.of("Nums"),
      PDFArray,
    );
    const parent = new Map<number, PDFObject>();
    for (let at = 0; at < numbers.size(); at += 2) parent.set(numbers.lookup(at, PDFNumber).asNumber(), numbers.get(at + 1));
    const annotated = file.getPages().flatMap((page) => {
      const found = page.node.Annots();
      return found ? found.asArray().map((ref) => ({ page, ref, link: dict(ref) })) : [];
    });
    expect(annotated).toHaveLength(2);
    for (const { page, ref, link } of annotated) {
      const element = dict(parent.get(link.lookup(PDFName.of("StructParent"), PDFNumber).asNumber()));
      expect(element.get(PDFName.of("S"))).toBe(PDFName.of("Link"));
      expect(String(element.get(PDFName.of("K")))).toContain(`/Obj ${ref}`);
      expect(link.lookup(PDFName.of("A"), PDFDict).lookup(PDFName.of("URI"), PDFString).asString()).toBe(SECRET);
      const [left, bottom, right, top] = link
        .lookup(PDFName.of("Rect"), PDFArray)
        .asArray()
        .map((each) => (each as PDFNumber).asNumber());
      const { width, height } = page.getSize();
      expect(left).toBeGreaterThan(0);
      expect(right).toBeGreaterThan(left! + 60);
      expect(right).toBeLessThan(width);
      expect(bottom).toBeGreaterThan(0);
      expect(top).toBeGreaterThan(bottom! + 8);
      expect(top).toBeLessThan(height);
    }
  });

  it("covers each of the three lines of a long address, and the code", async () => {
    const link = `https://lanternfold.example/estimates/J-2026-0001?key=${"Zq7-_x9A".repeat(24)}`;
    const paper = await Paper.of(await printed({ link }));
    await paper.check();
    expect((await paper.info("-url")).split(link).length - 1).toBe(4);
  });

  it.each(["javascript:app.alert(1)", "file:///etc/passwd", "lanternfold.example/o"])(
    "is printed and leads nowhere when it is no web address: %s",
    async (link) => {
      const paper = await Paper.of(await printed({ link }));
      await paper.check();
      expect(await paper.info("-url")).not.toContain("Annotation");
      expect(await paper.text()).toContain(`Your page: ${link}`);
    },
  );

  it("cannot end the string it stands in", async () => {
    const paper = await Paper.of(await printed({ link: "https://lanternfold.example/o)>>/x(\\#a)(" }));
    await paper.check();
    expect(await paper.info("-url")).toContain("https://lanternfold.example/o%29%3E%3E/x%28/#a%29%28");
  });
});
