import { expect, it } from "vitest";
import { columns, wrapped } from "../../../src/tools/quote/columns.js";

it("lines columns up, left and right, and leaves the last one ragged", () =>
  expect(
    columns(
      [
        ["Fee", "£45.00", "yes"],
        ["Fee credited", "-£45.00", "because"],
      ],
      ["<", ">", "<"],
    ),
  ).toEqual(["Fee            £45.00  yes", "Fee credited  -£45.00  because"]));

it("counts what a reader sees: letters with accents made of two code points take one place", () => {
  const [first, second] = columns(
    [
      ["Z\u030cofie", "x"],
      ["Ярослав", "x"],
    ],
    ["<", "<"],
  );
  expect([...new Intl.Segmenter().segment(first!)].length).toBe([...second!].length);
});

it("fills cells that are not there", () => expect(columns([["a"], ["bb", "c"]], ["<", "<"])).toEqual(["a", "bb  c"]));

it("breaks text at spaces within the width, and lets a long word stand", () => {
  expect(wrapped("one two three four", 9)).toEqual(["one two", "three", "four"]);
  expect(wrapped("a incomprehensibilities b", 5, "  ")).toEqual(["  a", "  incomprehensibilities", "  b"]);
  expect(wrapped("", 5)).toEqual([]);
});
