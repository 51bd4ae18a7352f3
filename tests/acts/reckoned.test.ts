import { readFile } from "node:fs/promises";
import { afterEach, expect, it, vi } from "vitest";
import { keptByText, reckoned, withRisk } from "../../src/acts/reckoned.js";
import * as engine from "../../src/estimating/estimate.js";
import type { EstimateInput } from "../../src/estimating/input.js";

const input: EstimateInput = JSON.parse(await readFile("fixtures/demo/tape-echo.json", "utf8"));
const priced = vi.spyOn(engine, "estimate");
afterEach(() => priced.mockClear());

it("reckons the risk of an issued sheet once, however often it is looked at, and the same as anew", () => {
  const anew = engine.estimate(input, { risk: true });
  if (!anew.ok) throw new Error("The demo has problems.");
  const { risk, ...sheet } = anew.sheet;
  priced.mockClear();
  for (let look = 0; look < 3; look += 1) expect(withRisk(sheet, input).risk).toEqual(risk);
  expect(priced).toHaveBeenCalledTimes(1);
});

it("reckons anew what differs in anything but its papers", () => {
  const [first] = input.items;
  const other = { ...input, items: [{ ...first!, count: first!.count + 1 }, ...input.items.slice(1)] };
  reckoned(input);
  expect(reckoned({ ...input, paperwork: { owner: { name: "Orla Fennimore" } } })).toBe(reckoned(input));
  expect(priced).toHaveBeenCalledTimes(1);
  expect(reckoned(other)).not.toEqual(reckoned(input));
});

it("lets the oldest go where there is no more room, and keeps what was asked for since", () => {
  const kept = keptByText<string>(10);
  const work = vi.fn(() => "worked out");
  for (const text of ["aaaa", "bbbb", "aaaa", "cccc", "aaaa"]) kept(text, work);
  expect(work).toHaveBeenCalledTimes(3);
  kept("bbbb", work);
  expect(work).toHaveBeenCalledTimes(4);
  for (const _ of [1, 2]) kept("longer than the room", work);
  expect(work).toHaveBeenCalledTimes(6);
});
