import { env } from "cloudflare:test";
import { beforeAll, describe, expect, inject, it } from "vitest";
import type { Bindings } from "../../src/http/bindings.js";
import { backupLines } from "../../src/records/backup/dump.js";
import { readBackup } from "../../src/records/backup/read.js";
import { zipped } from "../../src/records/backup/zip.js";
import { connectWeb } from "../../src/records/connectWeb.js";
import { photoBucket } from "../../src/records/photoBucket.js";
import { sha256 } from "../../src/records/sha256.js";
import worker from "../../src/worker.js";

const SECRET = "the secret of this test";
const bindings: Bindings = { OHMWRIGHT_SECRET: SECRET, LIBSQL_URL: inject("libsqlUrl") };
const call = async (path: string, init: RequestInit = {}, to = bindings) =>
  worker.fetch(
    new Request(`https://shop.example${path}`, {
      ...init,
      headers: {
        authorization: `Bearer ${SECRET}`,
        "content-type": "application/json",
        ...(init.headers as Record<string, string>),
      },
    }),
    to,
  );

describe("data in and out on the edge", () => {
  beforeAll(async () => {
    await call("/health");
  }, 30_000);

  it("backs the shop up over HTTP into a file that reads back whole, and refuses to restore it over itself", async () => {
    const answer = await call("/api/backup");
    expect([answer.status, answer.headers.get("content-type")]).toEqual([200, "application/gzip"]);
    const bytes = new Blob([await answer.arrayBuffer()]);
    const read = await readBackup(() => bytes.stream(), 1000);
    expect(read).toMatchObject({ is: "sound", head: { format: "ohmwright backup" } });
    const again = await call("/api/restore", { method: "POST", body: bytes, headers: { "content-type": "application/gzip" } });
    expect([again.status, ((await again.json()) as { type: string }).type]).toEqual([409, "/problems/shop-there"]);
  });

  it("puts a backup longer than 8 MiB back in pieces through the bucket, of which none is left there", async () => {
    const { PHOTOS } = env as unknown as Required<Pick<Bindings, "PHOTOS">>;
    const store = photoBucket(PHOTOS);
    const picture = new Uint8Array(9 * 2 ** 20);
    for (let at = 0; at < picture.length; at += 65_536) crypto.getRandomValues(picture.subarray(at, at + 65_536));
    const file = { name: "a-large-picture", type: "image/png", read: async () => picture };
    const lines = backupLines(connectWeb(inject("libsqlUrl")), "2026-11-29T01:00:00.000Z", async () => [file]);
    const bytes = new Uint8Array(await new Response(zipped(lines)).arrayBuffer());
    const pieces: string[] = [];
    const watched: Bindings["PHOTOS"] = Object.assign(Object.create(PHOTOS) as typeof PHOTOS, {
      put: (name: string, ...rest: [never, never]) => {
        pieces.push(name);
        return PHOTOS.put(name, ...rest);
      },
      get: PHOTOS.get.bind(PHOTOS),
      delete: PHOTOS.delete.bind(PHOTOS),
    });
    const headers = { "content-type": "application/gzip", "content-length": String(bytes.length) };
    const empty = { ...bindings, LIBSQL_URL: inject("emptyUrl"), PHOTOS: watched };
    const answer = await call("/api/restore", { method: "POST", body: bytes, headers }, empty);
    expect([answer.status, await answer.json()]).toEqual([200, { madeAt: "2026-11-29T01:00:00.000Z", rows: expect.any(Number) }]);
    const names = Array.from({ length: Math.ceil(bytes.length / 2 ** 20) }, (_, piece) => `restoring-${piece}`);
    expect(pieces).toEqual([...names, file.name].map((name) => `photos/${name}`));
    for (const name of names) expect(await store.get(name)).toBeUndefined();
    expect(await sha256((await store.get(file.name))!)).toBe(await sha256(picture));
    expect(await (await call("/api/jobs", {}, empty)).text()).toMatch(/J-\d{4}-0001/);
  }, 60_000);

  it("writes CSV and reads it, where no code may be made of text", async () => {
    const text = await (await call("/api/csv/part-kinds")).text();
    const answer = await call("/api/imports/part-kinds", { method: "POST", body: JSON.stringify({ text }) });
    expect(answer.status).toBe(200);
    const { rows } = (await answer.json()) as { rows: { is: string }[] };
    expect(rows.length).toBeGreaterThan(5);
    expect(new Set(rows.map(({ is }) => is))).toEqual(new Set(["same"]));
    const latin = btoa("id;type;name\nx;film;Gr\xf6\xdfe\n");
    const read = await call("/api/imports/part-kinds", { method: "POST", body: JSON.stringify({ base64: latin }) });
    expect(await read.json()).toMatchObject({
      encoding: "Windows-1252, as it is not UTF-8",
      rows: [{ is: "new", name: "Größe" }],
    });
  });
});
