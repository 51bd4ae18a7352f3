import { readdirSync } from "node:fs";
import { expect, it } from "vitest";
import { FLOORS } from "./floors.js";

it("every room has a floor of coverage", () => {
  const rooms = readdirSync("src", { withFileTypes: true }).filter((entry) => entry.isDirectory());
  expect(Object.keys(FLOORS).sort()).toEqual(rooms.map(({ name }) => name).sort());
  for (const { lines, branches } of Object.values(FLOORS)) expect(Math.min(lines, branches)).toBeGreaterThan(0);
});
