/** The short version of `npm run fuzz`: the same requests every time. */
import { expect, it } from "vitest";
import { openShop } from "../http/support/shop.js";
import { type Answering, counting, dice, fuzzForm, fuzzOperation, operationsOf } from "./fuzz.js";
import { fuzzed } from "./fuzzShops.js";

it("nothing that is sent to an operation or a form is answered by a fault of ours, late, or taken with a key nobody knows", async () => {
  const { requests, routes, faults } = await fuzzed(1200, 11);
  expect([...new Set(faults)]).toEqual([]);
  expect(requests).toBe(1200);
  expect(routes.size).toBeGreaterThan(130);
  expect([...routes.values()].some(({ times, refused }) => refused < times)).toBe(true);
});

it("would catch a route that fails, one that answers in plain text, and one that takes what nobody asked for", async () => {
  const opened = await openShop();
  const operations = (await operationsOf(opened.app)).filter(({ path, example }) => path === "/api/owners" && example);
  await opened.close();
  const caught = async (request: Answering["request"]) => {
    const into = counting();
    const of = dice(3);
    for (let times = 0; times < 60; times += 1)
      await fuzzOperation({ request }, of.one(operations), new Map([["owners", ["a"]]]), of, into);
    await fuzzForm({ request }, { page: "/", action: "/owners", fields: [["name", ""]] }, of, into);
    return into.faults.join("\n");
  };
  const json = { headers: { "content-type": "application/json" } };
  expect(await caught(() => new Response("{}", { status: 500, ...json }))).toContain("POST /api/owners: 500 for");
  expect(await caught(() => new Response("no", { status: 400, headers: { "content-type": "text/plain" } }))).toContain(
    "as 'text/plain'",
  );
  expect(await caught(() => new Response("{}", { status: 201, ...json }))).toContain("took 'noSuchField'");
  expect(
    await caught(() => {
      throw new Error("torn");
    }),
  ).toContain("thrown torn");
});
