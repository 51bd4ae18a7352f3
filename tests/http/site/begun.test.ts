/** A new estimate that is typed and not saved: kept by the shop, offered, gone on with, thrown away. */
import { expect, it } from "vitest";
import { typedDrafts } from "../../../src/records/typedDrafts.js";
import { shop } from "../support/shop.js";

type Shop = Awaited<ReturnType<typeof shop>>;
const TOKEN = "0199c0de-0000-7000-8000-00000000000a";
const HEADERS = { "content-type": "application/x-www-form-urlencoded", "sec-fetch-site": "same-origin", accept: "text/html" };
const post = ({ app }: Shop, said: Record<string, string>) =>
  app.request("http://localhost:4700/estimates/new", { method: "POST", body: new URLSearchParams(said), headers: HEADERS });
const look = async ({ app }: Shop, path: string) => (await app.request(`http://localhost:4700${path}`)).text();
const TYPED = { "meta.token": TOKEN, "unit.maker": "Threnwick", "unit.model": "Cadence 12", "cells.*.p:film": "7" };
const keep = async (opened: Shop, said: Record<string, string> = {}) =>
  (await (await post(opened, { ...TYPED, ...said, intent: "keep" })).json()) as { id: string; version: number };
const told = async (opened: Shop) => Object.keys(await opened.db.all("select id from jobs")).length;

it("is offered on the first page and on a new estimate, and gone on with as it was typed; it is no job", async () => {
  const opened = await shop();
  const jobs = await told(opened);
  const { id, version } = await keep(opened);
  expect(id).toBe(TOKEN);
  expect(await keep(opened, { "meta.draft": id, "meta.draftVersion": String(version), "unit.serial": "T-12" })).toEqual({
    id,
    version: 2,
  });
  for (const path of ["/", "/estimates/new"]) {
    const html = await look(opened, path);
    expect(html, path).toContain("You began an estimate for Threnwick Cadence 12, last typed on");
    expect(html, path).toContain(`/estimates/new?draft=${id}`);
  }
  const again = await look(opened, `/estimates/new?draft=${id}`);
  expect(again).toContain('value="Cadence 12"');
  expect(again).toContain("T-12");
  expect(again).not.toContain("You began");
  expect(await told(opened)).toBe(jobs);
});

it("stands twice where two devices went on with it, and neither is lost", async () => {
  const opened = await shop();
  const first = await keep(opened);
  const at = { "meta.draft": first.id, "meta.draftVersion": String(first.version) };
  await keep(opened, { ...at, "unit.serial": "telephone" });
  const other = await keep(opened, { ...at, "unit.serial": "bench" });
  expect(other.id).not.toBe(first.id);
  const kept = await Promise.all([first.id, other.id].map((id) => typedDrafts.find(opened.db, "", id)));
  expect(kept.map((one) => new Map(one?.fields).get("unit.serial"))).toEqual(["telephone", "bench"]);
});

it("goes away when it is saved or thrown away, and what comes late does not bring it back", async () => {
  const opened = await shop();
  const { id } = await keep(opened);
  const away = await post(opened, { "meta.draft": id, intent: "throw away" });
  expect(away.headers.get("location")).toBe("/");
  expect(await look(opened, "/")).not.toContain("You began");
  expect(await look(opened, `/estimates/new?draft=${id}`)).toContain("no longer kept");
  await keep(opened);
  const saved = await post(opened, { ...TYPED, intent: "save" });
  expect(saved.headers.get("location")).toContain(TOKEN);
  expect((await post(opened, { ...TYPED, intent: "keep" })).status).toBe(409);
  expect(await typedDrafts.of(opened.db, "")).toEqual([]);
});

it("belongs to a person, and is bounded in size, number and age", async () => {
  const { db } = await shop();
  const typed = { unit: "a unit", fields: [["unit.maker", "Threnwick"]] as [string, string][] };
  const day = (number: number) => new Date(Date.UTC(2026, 0, number)).toISOString();
  for (let at = 1; at <= 12; at += 1) await typedDrafts.keep(db, "wren", `w${at}`, 0, typed, day(at));
  await typedDrafts.keep(db, "rook", "r1", 0, typed, day(12));
  expect((await typedDrafts.of(db, "wren")).map(({ id }) => id)).toEqual(Array.from({ length: 10 }, (_, at) => `w${12 - at}`));
  expect((await typedDrafts.of(db, "rook")).map(({ id }) => id)).toEqual(["r1"]);
  expect(await typedDrafts.find(db, "rook", "w12")).toBeUndefined();
  await typedDrafts.dropped(db, "rook", "w12");
  expect((await typedDrafts.keep(db, "rook", "w12", 1, typed, day(12)))?.id).not.toBe("w12");
  expect(
    await typedDrafts.keep(db, "wren", "huge", 0, { ...typed, fields: [["unit.found", "x".repeat(500_000)]] }, day(12)),
  ).toBeUndefined();
  await typedDrafts.keep(db, "rook", "r2", 0, typed, day(50));
  expect(await typedDrafts.of(db, "wren")).toEqual([]);
});
