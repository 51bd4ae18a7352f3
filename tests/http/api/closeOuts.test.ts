import { expect, it } from "vitest";
import { estimates } from "../../../src/records/estimates.js";
import { sha256 } from "../../../src/records/sha256.js";
import { agreedJob, HAND, worked } from "../../records/support/closed.js";
import { TAPE_ECHO } from "../../records/support/livedIn.js";
import { shop } from "../support/shop.js";

const AT = `/api/jobs/${TAPE_ECHO}`;
const BODY = {
  by: HAND,
  closedOn: "2026-11-25",
  payments: [{ on: "2026-11-24", amount: 8084, for: "deposit" }],
  warrantyDays: 90,
  oldParts: { is: "kept", why: "exchange part" },
  costs: { perHour: { [HAND]: 3100 }, otherwise: 2800, other: [{ what: "freight", amount: 1075 }] },
};

it("closes a job once however often it is sent, tells what it came to, and takes a correction", async () => {
  const { db, send, call, app } = await shop();
  const close = (body: object, key?: string) =>
    send("POST", `${AT}/close-outs`, { ...BODY, ...body }, key ? { "idempotency-key": key } : {});
  expect((await send("POST", "/api/jobs/none/close-outs", BODY)).status).toBe(404);
  expect(await (await close({})).json()).toMatchObject({ status: 409, type: "/problems/nothing-agreed" });
  expect((await call(`${AT}/close-out`)).status).toBe(404);
  await agreedJob(db);
  await worked(db, TAPE_ECHO, 1);

  const wrong = await close({ closedOn: "2026-13-01", warrantyDays: 1.5 });
  expect(wrong.status).toBe(422);
  expect(((await wrong.json()) as { errors: { pointer: string }[] }).errors.map(({ pointer }) => pointer)).toEqual([
    "/closedOn",
    "/warrantyDays",
  ]);
  expect((await close({ oldParts: { is: "kept" } })).status).toBe(422);

  const early = await close({ closedOn: "2026-11-24" });
  expect([early.status, await early.json()]).toMatchObject([
    422,
    { errors: [{ pointer: "/closedOn", name: "closed before agreed", detail: expect.stringContaining("25 November 2026") }] },
  ]);

  const first = await close({}, "one");
  expect(first.status).toBe(201);
  const record = (await first.json()) as { id: string; pdfHash: string; contentHash: string; result: { account: object } };
  expect(record.result.account).toMatchObject({ basis: "fixed price", totals: { prepaid: 8084 } });
  expect(await (await close({}, "one")).json()).toEqual(record);
  expect((await close({})).status).toBe(409);
  expect(first.headers.get("etag")).toBe(`"${record.contentHash}"`);
  const fresh = await call(`${AT}/close-out`, { headers: { "if-none-match": `"${record.contentHash}"` } });
  expect(fresh.status).toBe(304);
  const pdf = new Uint8Array(await (await call(`${AT}/final-account.pdf`)).arrayBuffer());
  expect(await sha256(pdf)).toBe(record.pdfHash);

  const entry = { item: "w01", minutes: 5, person: HAND, workedOn: "2026-11-25" };
  expect(await (await send("POST", `${AT}/work-log`, entry)).json()).toMatchObject({ type: "/problems/job-closed" });

  expect((await close({ corrects: "another", reason: "x" })).status).toBe(409);
  const unsaid = await close({ corrects: record.id, payments: [] });
  expect([unsaid.status, await unsaid.json()]).toMatchObject([422, { errors: [{ pointer: "/reason", name: "reason missing" }] }]);
  const corrected = await close({ corrects: record.id, reason: "no deposit was paid", payments: [] });
  expect(await corrected.json()).toMatchObject({ corrects: record.id, result: { account: { totals: { prepaid: 0 } } } });
  const { items } = (await (await call(`${AT}/close-outs`)).json()) as { items: { id: string }[] };
  expect(items).toHaveLength(2);
  const job = await app.request(`http://localhost:4700/jobs/${TAPE_ECHO}`);
  expect(await job.text()).toContain("Closed on 25 November 2026.");
  expect((await estimates.ofJob(db, TAPE_ECHO)).length).toBe(1);
});
