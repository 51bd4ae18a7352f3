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
});
