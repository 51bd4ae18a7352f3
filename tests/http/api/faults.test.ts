import { expect, it } from "vitest";
import { agreedShop } from "../support/agreedShop.js";

interface Told {
  readonly type: string;
  readonly errors: readonly { readonly name: string; readonly parameter?: string; readonly pointer?: string }[];
}
const TAPE_ECHO = "01a1e8fd-0b20-7cb5-9019-4936cadd928a";

it.each([
  ["/api/accuracy?from=2026-13-01", "from", "date unreadable"],
  ["/api/accuracy?to=2026-02-30", "to", "date unreadable"],
  ["/api/owners?limit=0", "limit", "number out of range"],
  ["/api/owners?page=2", "page", "key unknown"],
  ["/api/rate-books/bench-book/versions/0", "version", "number out of range"],
])("what is wrong with %s points at the parameter", async (path, parameter, name) => {
  const { call } = await agreedShop();
  const answer = await call(path);
  expect(answer.status).toBe(400);
  const [error] = ((await answer.json()) as Told).errors;
  expect(error).toMatchObject({ parameter, name });
  expect(error).not.toHaveProperty("pointer");
});

it("an impossible day in a body is named with its place", async () => {
  const { send } = await agreedShop();
  const entry = { item: "w01", minutes: 5, person: "Wilmot", workedOn: "2026-13-01" };
  const answer = await send("POST", `/api/jobs/${TAPE_ECHO}/work-log`, entry);
  expect(answer.status).toBe(422);
  expect(((await answer.json()) as Told).errors[0]).toMatchObject({ pointer: "/workedOn", name: "date unreadable" });
});

it("a body that is not UTF-8 is refused, not kept as other letters", async () => {
  const { call } = await agreedShop();
  const body = Uint8Array.from([...new TextEncoder().encode('{"name":"'), 0xc3, 0x28, ...new TextEncoder().encode('"}')]);
  const answer = await call("/api/owners", { method: "POST", headers: { "content-type": "application/json" }, body });
  expect(answer.status).toBe(400);
  expect(((await answer.json()) as Told).type).toBe("/problems/json-malformed");
});

it("photos, calendar and order list are there for programs", async () => {
  const { call } = await agreedShop();
  expect(await (await call(`/api/jobs/${TAPE_ECHO}/photos`)).json()).toEqual({ items: [] });
  expect((await call("/api/photos/none")).status).toBe(404);
  for (const [own, page] of [
    [`/api/jobs/${TAPE_ECHO}/calendar.ics`, `/jobs/${TAPE_ECHO}/calendar.ics`],
    ["/api/order-list.csv", "/parts/order-list.csv"],
  ] as const) {
    const [answer, shown] = [await call(own), await call(page)];
    expect(answer.status).toBe(200);
    expect(await answer.text()).toBe(await shown.text());
  }
});
