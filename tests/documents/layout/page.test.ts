import { describe, expect, it } from "vitest";
import type { Block } from "../../../src/documents/layout/block.js";
import { paginate } from "../../../src/documents/layout/paginate.js";
import { setBlocks } from "../../../src/documents/layout/setBlocks.js";
import { Tag } from "../../../src/documents/layout/tag.js";
import { Missing } from "../../../src/documents/type/shape.js";

const pagesOf = (blocks: readonly Block[], height: number) =>
  paginate(setBlocks(blocks, 400, new Tag("Document"), new Missing()), height, height).map(
    (placed) => placed.flatMap(({ strip }) => strip.marks).filter(({ is }) => is === "text").length,
  );
const lines = (count: number): Block[] =>
  Array.from({ length: count }, (_, index) => ({ is: "paragraph", text: `line ${index}` }));

describe("a page asked for", () => {
  it("is turned though there is room, once", () => {
    expect(pagesOf([...lines(3), { is: "page" }, ...lines(2)], 700)).toEqual([3, 2]);
    expect(pagesOf([...lines(3), { is: "page" }, { is: "heading", text: "Next" }, ...lines(2)], 700)).toEqual([3, 3]);
  });

  it("is not turned where one has just begun", () => {
    expect(pagesOf([{ is: "page" }, ...lines(2)], 700)).toEqual([2]);
  });
});

describe("a paragraph that leads", () => {
  it("goes to the next page with what it leads to", () => {
    const table: Block = { is: "table", columns: [{ title: "Head", width: "rest" }], rows: [{ cells: [{ text: "Row" }] }] };
    const height = 8 * 14;
    const before = lines(7);
    const parted = pagesOf([...before, { is: "paragraph", text: "Leads" }, table], height);
    const kept = pagesOf([...before, { is: "paragraph", text: "Leads", leads: true }, table], height);
    expect(parted).toEqual([8, 2]);
    expect(kept).toEqual([7, 3]);
  });
});
