import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { runs } from "../../setup/runs.js";
import { routes } from "../support/documented.js";
import { demo, job, openShop } from "../support/shop.js";

let opened: Awaited<ReturnType<typeof openShop>>;
beforeAll(async () => {
  opened = await openShop();
});
afterAll(() => opened.close());

/** '.' and '..' would be taken as steps of the path before anything is sent. */
const address = (path: string, id: string) =>
  path.replaceAll(/\{version\}/g, "1").replaceAll(/\{\w+\}/g, /^\.{1,2}$/.test(id) ? "x" : encodeURIComponent(id));

/** Something small and wrong, or of another kind, in place of a value. */
const junk = fc.oneof(
  fc.jsonValue({ maxDepth: 2 }),
  fc.constantFrom(
    -1,
    0,
    1.5,
    1e15,
    2 ** 53,
    1e308,
    -0,
    "",
    " ",
    "\u0000",
    "\r\n",
    "__proto__",
    "constructor",
    "💡",
    "\ud800",
    "'; DROP TABLE owners; --",
  ),
);

/** A valid value with one of its parts, however deep, replaced, dropped or joined by another. */
function spoilt(value: unknown): fc.Arbitrary<unknown> {
  const places: (readonly (string | number)[])[] = [];
  const walk = (inner: unknown, path: readonly (string | number)[]) => {
    if (path.length > 0) places.push(path);
    if (typeof inner === "object" && inner !== null)
      for (const [key, next] of Object.entries(inner)) walk(next, [...path, Array.isArray(inner) ? Number(key) : key]);
  };
  walk(value, []);
  return fc
    .record({ place: fc.constantFrom(...places), put: junk, how: fc.constantFrom("put", "drop", "join") })
    .map(({ place, put, how }) => {
      const copy = structuredClone(value);
      const last = place.at(-1)!;
      // biome-ignore lint/suspicious/noExplicitAny: any place of any value
      const at = place.slice(0, -1).reduce<any>((inner, step) => inner[step], copy);
      if (how === "put") at[last] = put;
      else if (how === "drop") delete at[last];
      else if (typeof at[last] === "object" && at[last] !== null) at[last].more = put;
      else at[last] = [at[last], put];
      return copy;
    });
}

describe("whatever is sent", () => {
  it("is never answered 5xx, and every answer is the one documented", async () => {
    const changing = routes.filter(({ method }) => method !== "GET");
    expect(changing.length).toBeGreaterThan(15);
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(...changing),
        fc.oneof(fc.json({ maxDepth: 3 }), fc.string()),
        fc.string({ maxLength: 20 }),
        async (route, body, id) => {
          const headers = { "content-type": "application/json", "if-match": "*" };
          const response = await opened.call(address(route.path, id || "x"), { method: route.method, body, headers });
          expect(response.status).toBeLessThan(500);
          expect(response.status).toBeGreaterThanOrEqual(400);
        },
      ),
      runs(150),
    );
  });

  it("in an address or query is never answered 5xx", async () => {
    const reading = routes.filter(({ method }) => method === "GET");
    const query = fc.dictionary(
      fc.constantFrom("limit", "after", "owner", "kind", "unit", "job", "maker", "model", "x"),
      fc.string({ unit: "binary" }),
    );
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(...reading),
        fc.string({ unit: "binary", minLength: 1 }),
        query,
        async (route, id, parameters) => {
          const wellFormed = (text: string) => text.replaceAll(/[\ud800-\udfff]/g, "?");
          const search = new URLSearchParams(Object.entries(parameters));
          const response = await opened.call(`${address(route.path, wellFormed(id))}?${search}`);
          expect(response.status).toBeLessThan(500);
        },
      ),
      runs(150),
    );
  });

  it("nearly right, to the engine, is priced or refused, never answered 5xx", async () => {
    const inputs = await Promise.all(["tape-echo", "plain-counts", "valve-amplifier"].map(job));
    await fc.assert(
      fc.asyncProperty(
        fc.oneof(...inputs.map(spoilt)),
        fc.constantFrom("/api/estimate", "/api/estimate/risk", "/api/estimate/refined"),
        async (input, path) => {
          const response = await opened.send("POST", path, input);
          expect([200, 422]).toContain(response.status);
        },
      ),
      runs(200),
    );
  }, 120_000);

  it("nearly right, to the documents, is printed or refused, never answered 5xx", async () => {
    const input = await job("tape-echo");
    await fc.assert(
      fc.asyncProperty(spoilt(input), fc.constantFrom("/api/estimate.pdf", "/api/bench-sheet.pdf"), async (sent, path) => {
        expect([200, 422]).toContain((await opened.send("POST", path, sent)).status);
      }),
      runs(40),
    );
  }, 120_000);

  it("nearly right, to be kept, is kept or refused, never answered 5xx", async () => {
    const { owners, units, models, partKinds, offers, rateBook, jobs } = await demo();
    const bare = ({ id: _id, version: _version, ...value }: Record<string, unknown>) => value;
    const { rateBook: _book, ...input } = await job("tape-echo");
    const { estimates: _estimates, ...visit } = jobs[0]!;
    const values: Record<string, unknown> = {
      "/api/owners": bare({ ...owners[0]! }),
      "/api/units": bare({ ...units[0]! }),
      "/api/models": bare({ ...models[0]! }),
      "/api/part-kinds": bare({ ...partKinds[0]! }),
      "/api/offers": bare({ ...offers[0]! }),
      "/api/rate-books": bare({ ...rateBook }),
      "/api/jobs": bare({ ...visit }),
      "/api/estimates": { jobId: jobs[0]!.id, rateBookId: rateBook.id, rateBookVersion: 1, input },
    };
    /** A job has one open draft at most. */
    const onJobOfItsOwn = async (value: unknown) => {
      const { id } = (await (await opened.send("POST", "/api/jobs", values["/api/jobs"])).json()) as { id: string };
      return (value as { jobId?: unknown }).jobId === jobs[0]!.id ? { ...(value as object), jobId: id } : value;
    };
    const sent = fc.constantFrom(...Object.keys(values)).chain((path) => spoilt(values[path]).map((value) => ({ path, value })));
    await fc.assert(
      fc.asyncProperty(sent, async ({ path, value }) => {
        const sentTo = path === "/api/estimates" ? await onJobOfItsOwn(value) : value;
        const response = await opened.send("POST", path, sentTo);
        expect([201, 409, 422]).toContain(response.status);
        if (response.status !== 201) return;
        const found = await opened.call(response.headers.get("location")!);
        expect(found.status).toBe(200);
        expect(await found.json()).toMatchObject((await response.json()) as object);
      }),
      runs(200),
    );
  }, 120_000);
});
