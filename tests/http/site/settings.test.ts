/** The shop's settings, by its page and by programs: one rule and one sentence for both. The shop is invented. */
import { readFile } from "node:fs/promises";
import { describe, expect, it } from "vitest";
import { loadClosedDemo } from "../../../src/tools/demoClosed.js";
import { words } from "../support/noScript.js";
import { issued, type Story, story } from "../support/story.js";

const settings = async ({ opened }: Story) => {
  const answer = await opened.call("/api/settings");
  const { id: _, version: __, createdAt: ___, updatedAt: ____, ...value } = (await answer.json()) as Record<string, unknown>;
  return { value, tag: answer.headers.get("etag")! };
};

async function put(told: Story, change: object) {
  const { value, tag } = await settings(told);
  const answer = await told.opened.send("PUT", "/api/settings", { ...value, ...change }, { "if-match": tag });
  return {
    status: answer.status,
    body: (await answer.json()) as { errors?: { pointer: string; name: string; detail: string }[] },
  };
}

/** What the page and the API say of the same change. */
async function refusals(told: Story, change: Record<string, string>) {
  const page = await told.desk.press(await told.desk.get("/settings"), "Save", change);
  const figures = Object.entries(change).map(([key, text]) => [key, /^\d+$/.test(text) ? Number(text) : text] as const);
  const { status, body } = await put(told, Object.fromEntries(figures));
  expect([page.status, status]).toEqual([422, 422]);
  const [error] = body.errors!;
  expect(words(page.html)).toContain(error!.detail);
  expect(page.html).toContain(`<a href="#${error!.pointer.slice(1)}">`);
  return error!;
}

describe("the shop's currency", () => {
  it("is one of ISO 4217", async () => {
    const told = await story();
    expect(await refusals(told, { currency: "ZZZ" })).toEqual(
      expect.objectContaining({
        name: "currency unknown",
        detail: "Currency: 'ZZZ' is no currency of ISO 4217; give one such as GBP.",
      }),
    );
  });

  it("is that of the rate book it works by, which keeps it", async () => {
    const told = await story();
    const { name, detail } = await refusals(told, { currency: "EUR" });
    expect(name).toBe("currency differs");
    expect(detail).toMatch(/^Currency is EUR, and rate book '.*' is in GBP; choose GBP, or a rate book in EUR\.$/);
    const kept = await told.opened.call("/api/rate-books/bench-book");
    const { book } = (await kept.json()) as { book: Record<string, unknown> };
    const { id: _, version: __, ...value } = book;
    const answer = await told.opened.send(
      "PUT",
      "/api/rate-books/bench-book",
      { ...value, currency: "EUR" },
      { "if-match": kept.headers.get("etag")! },
    );
    expect(await answer.json()).toMatchObject({
      errors: [{ pointer: "/currency", detail: "Currency is EUR, and the shop works in GBP by this rate book; keep GBP." }],
    });
  });

  it("stays while closed jobs stand in it, which boards would no longer add up", async () => {
    const told = await story();
    const { opened } = told;
    const { book } = (await (await opened.call("/api/rate-books/bench-book")).json()) as { book: Record<string, unknown> };
    const { id: _, version: __, ...value } = book;
    expect((await opened.send("POST", "/api/rate-books", { ...value, id: "in-euro", currency: "EUR" })).status).toBe(201);
    const change = { currency: "EUR", rateBookId: "in-euro" };
    await loadClosedDemo(opened.db, JSON.parse(await readFile("fixtures/demo/closed-job.json", "utf8")));
    const { detail } = await refusals(told, change);
    expect(detail).toMatch(/^Currency is EUR, and \d+ jobs? closed in GBP would be missing from Looking back; keep GBP\.$/);
  });

  it("moves with its rate book before anything was closed", async () => {
    const other = await story();
    const { book } = (await (await other.opened.call("/api/rate-books/bench-book")).json()) as { book: Record<string, unknown> };
    const { id: _, version: __, ...value } = book;
    await other.opened.send("POST", "/api/rate-books", { ...value, id: "in-euro", currency: "EUR" });
    expect((await put(other, { currency: "EUR", rateBookId: "in-euro" })).status).toBe(200);
  });
});

describe("how long links open and the shop stands by its work", () => {
  it("is the shop's to say, is 90 days until it does, and stays where a program does not speak of it", async () => {
    const told = await story();
    const { value } = await settings(told);
    expect(value).toMatchObject({ linkDays: 90, warrantyDays: 90 });
    await told.desk.press(await told.desk.get("/settings"), "Save", { linkDays: "30", warrantyDays: "180" });
    const { linkDays: _, warrantyDays: __, ...silent } = (await settings(told)).value;
    const { tag } = await settings(told);
    expect((await told.opened.send("PUT", "/api/settings", silent, { "if-match": tag })).status).toBe(200);
    expect((await settings(told)).value).toMatchObject({ linkDays: 30, warrantyDays: 180 });
    expect((await told.desk.get(`${told.job}/issue`)).html).toMatch(/id="linkDays"[^>]*value="30"/);
    await issued(told);
    const made = await told.opened.send("POST", `/api/estimates/${told.estimateId}/owner-links`, {
      ...{ by: "Tamsin", deliveredTo: "ottilie@larkholt.example" },
    });
    expect(await made.json()).toMatchObject({ expiresAt: "2026-12-25T09:00:00.000Z" });
  });

  it("is held to its limits, with the field's own name", async () => {
    const told = await story();
    expect(await refusals(told, { linkDays: "0" })).toMatchObject({ pointer: "/linkDays" });
  });
});

it("is asked each thing once, and a new kind of labour is somebody's work at first", async () => {
  const { desk } = await story();
  const names = [...(await desk.get("/settings")).html.matchAll(/<(?:input|select|textarea)[^>]* name="([^"]+)"/g)].map(
    ([, name]) => name,
  );
  expect(names.length).toBeGreaterThan(10);
  expect(names.filter((name, at) => names.indexOf(name) !== at)).toEqual([]);
  const made = await desk.get("/rate-book/labour-classes/new");
  expect(made.html).toMatch(/attended"[^>]*>\s*<option value="yes"/);
});
