import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { paginate } from "../../../src/documents/layout/paginate.js";
import type { Strip } from "../../../src/documents/layout/strip.js";

const strip = (height: number, more: Partial<Strip> = {}): Strip => ({ before: 0, height, keep: false, marks: [], ...more });

describe("breaking strips over pages", () => {
  it("fills a page before it starts the next", () => {
    const pages = paginate([strip(40), strip(40), strip(40)], 100, 100);
    expect(pages.map((page) => page.length)).toEqual([2, 1]);
  });

  it("moves strips that are kept together to the next page as one", () => {
    const pages = paginate([strip(60), strip(30, { keep: true }), strip(30)], 100, 100);
    expect(pages.map((page) => page.length)).toEqual([1, 2]);
  });

  it("breaks what no page can hold, rather than lose it", () => {
    const many = Array.from({ length: 10 }, () => strip(30, { keep: true }));
    expect(paginate(many, 100, 100).map((page) => page.length)).toEqual([3, 3, 3, 1]);
  });

  it("repeats the head of a table above what continues it, and marks it as repeated", () => {
    const head = [strip(10, { keep: true })];
    const pages = paginate([head[0]!, strip(50, { head }), strip(50, { head })], 100, 100);
    expect(pages[1]!.map(({ repeated, top }) => [repeated, top])).toEqual([
      [true, 0],
      [false, 10],
    ]);
  });

  it("does not repeat a head that would fill the page it heads", () => {
    const head = [strip(40, { keep: true })];
    const pages = paginate([strip(90), strip(50, { head })], 100, 100);
    expect(pages[1]!.map(({ repeated, top }) => [repeated, top])).toEqual([[false, 0]]);
  });

  it("leaves out the space above at the top of a page", () => {
    const pages = paginate([strip(90), strip(20, { before: 15 })], 100, 100);
    expect(pages[1]![0]!.top).toBe(0);
  });

  it("places every strip once, in order, inside its page", () => {
    const strips = fc.array(
      fc.record({ height: fc.integer({ min: 1, max: 60 }), before: fc.integer({ min: 0, max: 9 }), keep: fc.boolean() }),
      { maxLength: 60 },
    );
    fc.assert(
      fc.property(strips, (list) => {
        const given = list.map(({ height, ...more }) => strip(height, more));
        const pages = paginate(given, 80, 100);
        const placed = pages.flat().filter(({ repeated }) => !repeated);
        expect(placed.map((each) => each.strip)).toEqual(given);
        pages.forEach((page, index) => {
          for (const { strip: own, top } of page) expect(top + own.height).toBeLessThanOrEqual(index === 0 ? 80 : 100);
        });
      }),
    );
  });
});
