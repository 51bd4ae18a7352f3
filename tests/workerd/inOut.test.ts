import { beforeAll, describe, expect, inject, it } from "vitest";
import type { Bindings } from "../../src/http/bindings.js";
import { readBackup } from "../../src/records/backup/read.js";
import worker from "../../src/worker.js";

const SECRET = "the secret of this test";
const bindings: Bindings = { OHMWRIGHT_SECRET: SECRET, LIBSQL_URL: inject("libsqlUrl") };
const call = async (path: string, init: RequestInit = {}) =>
  worker.fetch(
    new Request(`https://shop.example${path}`, {
      ...init,
      headers: {
        authorization: `Bearer ${SECRET}`,
        "content-type": "application/json",
        ...(init.headers as Record<string, string>),
      },
    }),
    bindings,
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
