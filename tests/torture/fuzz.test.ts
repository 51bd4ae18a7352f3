/** The short version of `npm run fuzz`: the same requests every time. */
import { expect, it } from "vitest";
import { openShop } from "../http/support/shop.js";
import { type Answering, counting, dice } from "./fuzz.js";
import { fuzzOperation, operationsOf } from "./fuzzApi.js";
import { fuzzForm } from "./fuzzForms.js";
import { fuzzed, noting } from "./fuzzShops.js";

it("nothing that is sent to an operation or a form is answered by a fault of ours, late, or taken with a key nobody knows", async () => {
  const { requests, routes, faults } = await fuzzed(400, 11);
  expect([...new Set(faults)]).toEqual([]);
  expect(requests).toBe(400);
  expect(routes.size).toBeGreaterThan(120);
  expect([...routes.values()].some(({ times, refused }) => refused < times)).toBe(true);
}, 240_000);

it("would catch a route that fails, one that answers in plain text, and one that takes what nobody asked for", async () => {
  const opened = await openShop();
  const all = await operationsOf(opened.app);
  // At every depth at which the schema says each key.
  const priced = all.find(({ method, path }) => method === "POST" && path === "/api/estimate")!;
  expect(new Set(priced.closed.map(({ length }) => length)).size).toBeGreaterThan(3);
  const operations = all.filter(({ path, example }) => path === "/api/owners" && example);
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
  const into = counting();
  await noting(into, async () => console.error("a fault that is only logged"));
  expect(into.faults).toEqual(["logged: a fault that is only logged"]);
});
