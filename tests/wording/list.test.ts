import { expect, it } from "vitest";
import { counted, listed, listedShort } from "../../src/wording/list.js";

it("joins names as a sentence does", () => {
  expect(listed([])).toBe("");
  expect(listed(["a"])).toBe("a");
  expect(listed(["a", "b"])).toBe("a and b");
  expect(listed(["a", "b", "c"], "or")).toBe("a, b or c");
});

it("cuts a long list and says how much is left", () => {
  expect(listedShort(["a", "b", "c"], 2)).toBe("a, b and 1 more");
  expect(listedShort(["a", "b"], 2)).toBe("a and b");
});

it("counts one and many", () => {
  expect(counted(1, "screw")).toBe("1 screw");
  expect(counted(0, "screw")).toBe("0 screws");
});
