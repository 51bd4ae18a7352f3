/** Where someone is sent after signing in. What leads elsewhere is told by the WHATWG URL parser of the platform, as a browser would resolve it. */
import fc from "fast-check";
import { expect, it } from "vitest";
import { ownPath } from "../../../src/http/frame/held.js";

const SHOP = "https://shop.example";

it.each([
  "//other.example",
  "/\\other.example",
  "/..//other.example",
  "/.//other.example",
  "/./\\other.example",
  "/jobs/../..//other.example/x",
  "/%2e%2e//other.example",
  "/\t/other.example",
  "https://other.example/",
  "javascript:alert(1)",
  "/\\\\[",
  undefined,
])("%j leads to the first page", (to) => {
  expect(ownPath(to)).toBe("/");
});

it("keeps a path of this site with what was asked of it", () => {
  expect(ownPath("/jobs/J-1/bench?by=Wilmot&done=tick")).toBe("/jobs/J-1/bench?by=Wilmot&done=tick");
});

it("leads to this site, whatever is asked for", () => {
  const piece = fc.constantFrom(
    "/",
    "\\",
    ".",
    "..",
    "%2e",
    "//",
    ":",
    "@",
    "?",
    "#",
    "\t",
    "\n",
    "other.example",
    "http:",
    "jobs",
  );
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 10 }), (pieces) => {
      const at = new URL(ownPath(`/${pieces.join("")}`), SHOP);
      expect(at.origin).toBe(SHOP);
    }),
  );
});
