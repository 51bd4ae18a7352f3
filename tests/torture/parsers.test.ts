/** The short version of `npm run fuzz -- --parsers 10000`: the same values every time. */
import { expect, it } from "vitest";
import { parsed, READERS, reader, text } from "./parsers.js";

it("no reader of what others wrote throws or takes long, and any text comes onto paper", async () => {
  const { read, faults } = await parsed(100, 7);
  expect(faults).toEqual([]);
  expect(read).toBeGreaterThan(100 * READERS.length);
}, 240_000);

it("would catch one that throws, and one that takes long", async () => {
  const throws = reader("a thrower", text, (said) => {
    if (said.includes("0")) throw new Error("a nought");
  });
  const thinks = reader("a thinker", text, () => {
    for (const before = process.cpuUsage(); process.cpuUsage(before).user < 60_000; );
  });
  expect((await parsed(100, 7, [throws])).faults).toEqual([expect.stringContaining("a thrower: Error: a nought for")]);
  expect((await parsed(1, 7, [thinks], 50)).faults).toContainEqual(expect.stringMatching(/^a thinker: \d+ ms for/));
}, 240_000);
