/** Photos in workerd: an R2 bucket as wrangler.toml binds it, simulated by miniflare, and a shop without one. */
import { env } from "cloudflare:test";
import { beforeAll, expect, inject, it } from "vitest";
import type { Bindings } from "../../src/http/bindings.js";
import { photoBucket } from "../../src/records/photoBucket.js";
import worker from "../../src/worker.js";

const SECRET = "the secret of this test";
const BASE = "https://shop.example";
const { PHOTOS } = env as unknown as Required<Pick<Bindings, "PHOTOS">>;
const without: Bindings = { OHMWRIGHT_SECRET: SECRET, LIBSQL_URL: inject("libsqlUrl") };
const bearer = { authorization: `Bearer ${SECRET}`, accept: "text/html", origin: BASE };

const call = (path: string, init: RequestInit = {}, bindings: Bindings = { ...without, PHOTOS }) =>
  worker.fetch(new Request(BASE + path, { redirect: "manual", ...init, headers: { ...bearer, ...init.headers } }), bindings);

beforeAll(async () => {
  await call("/health");
});

it("keeps bytes in the bucket, gives them back and forgets them", async () => {
  const store = photoBucket(PHOTOS);
  await store.put("one", new Uint8Array([1, 2, 3]), "image/jpeg");
  expect(await store.get("one")).toEqual(new Uint8Array([1, 2, 3]));
  await store.remove("one");
  await store.remove("one");
  expect(await store.get("one")).toBeUndefined();
  await expect(store.put("../one", new Uint8Array(), "image/jpeg")).rejects.toThrow();
});

it("takes a photo with the form of the page and serves it again; without a bucket it says so", async () => {
  const [, job = ""] = /href="(\/jobs\/[\w-]+)"/.exec(await (await call("/")).text()) ?? [];
  // The smallest whole PNG: one grey pixel.
  const png = Uint8Array.from(
    atob("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNgAAAAAgABSK+kcQAAAABJRU5ErkJggg=="),
    (sign) => sign.charCodeAt(0),
  );
  const body = () => {
    const form = new FormData();
    form.set("photo", new File([png], "dot.png"));
    form.set("shows", "fault");
    return form;
  };
  const added = await call(`${job}/photos`, { method: "POST", body: body() });
  expect([added.status, added.headers.get("location")]).toEqual([303, `${job}/photos?said=added`]);
  const [, src = ""] = /<img src="([^"]+)"/.exec(await (await call(`${job}/photos`)).text()) ?? [];
  const shown = await call(src);
  expect([shown.status, shown.headers.get("content-type")]).toEqual([200, "image/png"]);
  expect(new Uint8Array(await shown.arrayBuffer())).toEqual(png);

  expect((await call(`${job}/photos`, { method: "POST", body: body() }, without)).status).toBe(503);
  expect(await (await call(`${job}/photos`, {}, without)).text()).toContain("No place for photos is set up");
  expect((await call(job, {}, without)).status).toBe(200);
});
