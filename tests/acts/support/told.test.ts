import { expect, it } from "vitest";
import { z } from "zod";
import { act, refused, wrongField } from "../../../src/acts/act.js";
import type { Database } from "../../../src/records/database.js";
import { deskAt, done } from "./desk.js";

/** Nothing is read or written. */
const refusing = (decided: ReturnType<typeof refused>) =>
  done(
    act({
      ...{ name: "plantedRefusal", title: "Refuse", answer: z.unknown(), decide: async () => decided },
      fields: z.strictObject({ good: z.int().optional() }),
    }),
    deskAt({} as Database, "2026-11-25T09:00:00.000Z"),
    {},
    {},
  );

it.each([
  ["a fault at a field", wrongField("/good", "number out of range", "Good: give at most 3.")],
  ["a fault deep in a field", wrongField("/good/0/id", "number out of range", "Good: give at most 3.")],
  ["a fault of the whole", wrongField("", "nothing changed", "Nothing is changed; change one first.")],
  ["what somebody said", refused("estimate issued", { detail: "Wilhelmina withdrew it: not ours" })],
  ["no more than its name", refused("not found")],
  ["the version that stands", refused("version moved", { current: { version: 3 }, headers: { etag: '"3"' } })],
])("lets a refusal pass that tells %s", async (_, decided) => {
  expect(await refusing(decided)).toMatchObject({ ok: false });
});

it.each([
  ["no known name", refused("wrong somehow" as never)],
  ["an empty detail", refused("not found", { detail: "" })],
  ["half a sentence", refused("not found", { detail: "There is no such" })],
  ["a detail about undefined", refused("not found", { detail: "There is no undefined." })],
  ["a detail that begins with nothing", refused("not found", { detail: " is not there." })],
  ["a fault without a name", wrongField("/good", "", "Good: give at most 3.")],
  ["a fault without a detail", wrongField("/good", "number out of range", "")],
  ["a fault at no field", wrongField("", "number out of range", "Good: give at most 3.")],
  ["a fault at a pointer without a slash", wrongField("good", "number out of range", "Good: give at most 3.")],
  ["a fault at an empty key", wrongField("/good/", "number out of range", "Good: give at most 3.")],
  ["a fault at another's field", wrongField("/bad", "number out of range", "Good: give at most 3.")],
  ["nothing of what is wrong", refused("input refused", { errors: [] })],
  ["another version", refused("version moved", { current: { version: 3 }, headers: { etag: '"2"' } })],
])("fails on a refusal that tells %s", async (_, decided) => {
  await expect(refusing(decided)).rejects.toThrow();
});
