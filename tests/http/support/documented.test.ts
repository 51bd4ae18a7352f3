import { Hono } from "hono";
import { describe, expect, it } from "vitest";
import type { AppEnv } from "../../../src/http/bindings.js";
import { documented } from "./documented.js";

const answering = (answer: () => Response) => documented(new Hono<AppEnv>().get("/api/owners", answer));
const json = (body: unknown, status = 200, type = "application/json") =>
  new Response(JSON.stringify(body), { status, headers: { "content-type": type } });

describe("the watch over documented answers", () => {
  it("lets a documented answer pass", async () => {
    await expect(answering(() => json({ items: [] }))("/api/owners")).resolves.toBeInstanceOf(Response);
  });

  it.each([
    ["another status", () => json({ items: [] }, 418)],
    ["another media type", () => json({ items: [] }, 200, "text/plain")],
    ["another shape", () => json({ items: [{ id: 1 }] })],
    ["a key too many", () => json({ items: [], more: 1 })],
    [
      "a header that is not told",
      () => new Response('{"items":[]}', { headers: { "content-type": "application/json", etag: '"1"' } }),
    ],
  ])("fails on %s", async (_, answer) => {
    await expect(answering(answer)("/api/owners")).rejects.toThrow();
  });

  const problem = (changed: object) => () =>
    json(
      {
        ...{ type: "/problems/query-refused", title: "A query parameter cannot be read.", status: 400 },
        ...{ detail: "limit is 0; give at least 1.", instance: "urn:uuid:0" },
        errors: [
          {
            type: "/problems/number-out-of-range",
            parameter: "limit",
            name: "number out of range",
            detail: "limit is 0; give at least 1.",
          },
        ],
        ...changed,
      },
      400,
      "application/problem+json",
    );

  it("lets a problem pass that says what is wrong", async () => {
    await expect(answering(problem({}))("/api/owners")).resolves.toBeInstanceOf(Response);
  });

  it.each([
    ["of no known type", { type: "/problems/no-such" }],
    ["with an empty detail", { detail: "" }],
    [
      "whose error says nothing",
      { errors: [{ type: "/problems/x", parameter: "limit", name: "number out of range", detail: "" }] },
    ],
    ["whose error is nowhere", { errors: [{ type: "/problems/x", name: "number out of range", detail: "Give at least 1." }] }],
    ["whose error has no name", { errors: [{ type: "/problems/x", parameter: "limit", name: "", detail: "Give at least 1." }] }],
  ])("fails on a problem %s", async (_, changed) => {
    await expect(answering(problem(changed))("/api/owners")).rejects.toThrow();
  });
});
