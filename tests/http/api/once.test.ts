import { describe, expect, it } from "vitest";
import { shop } from "../support/shop.js";

const owner = { name: "Ottilie Vantongeren" };
const DAY = 24 * 3_600_000;

describe("an Idempotency-Key", () => {
  const add = (opened: Awaited<ReturnType<typeof shop>>, key: string, value: unknown = owner) =>
    opened.send("POST", "/api/owners", value, { "idempotency-key": key });

  it("gives a repeated request the first answer again, and adds nothing", async () => {
    const opened = await shop();
    const first = await add(opened, '"one"');
    const again = await add(opened, '"one"');
    expect(again.status).toBe(201);
    expect(again.headers.get("idempotency-replayed")).toBe("true");
    for (const name of ["location", "etag", "content-type"]) expect(again.headers.get(name)).toBe(first.headers.get(name));
    const record = (await first.json()) as { id: string };
    expect(await again.json()).toEqual(record);
    const { items } = (await (await opened.call("/api/owners?limit=200")).json()) as { items: { name: string }[] };
    expect(items.filter(({ name }) => name === owner.name)).toHaveLength(1);
  });

  it("may stand in quotes or bare, and is the same key", async () => {
    const opened = await shop();
    await add(opened, "one");
    expect((await add(opened, '"one"')).headers.get("idempotency-replayed")).toBe("true");
  });

  it("is refused with another body", async () => {
    const opened = await shop();
    await add(opened, '"one"');
    const other = await add(opened, '"one"', { name: "Someone Else" });
    expect(other.status).toBe(422);
    expect(await other.json()).toMatchObject({ type: "/problems/idempotency-key-reused" });
  });

  it("belongs to one address", async () => {
    const opened = await shop();
    await add(opened, '"one"');
    const elsewhere = await opened.send("POST", "/api/part-kinds", owner, { "idempotency-key": '"one"' });
    expect(await elsewhere.json()).toMatchObject({ type: "/problems/input-refused" });
  });

  it("lets one of several requests at once through; the others hear the same answer", async () => {
    const opened = await shop();
    const answers = await Promise.all(Array.from({ length: 10 }, () => add(opened, '"one"')));
    expect(answers.map(({ status }) => status)).toEqual(Array(10).fill(201));
    expect(answers.filter(({ headers }) => !headers.has("idempotency-replayed"))).toHaveLength(1);
    const { items } = (await (await opened.call("/api/owners?limit=200")).json()) as { items: { name: string }[] };
    expect(items.filter(({ name }) => name === owner.name)).toHaveLength(1);
  });

  it("gives a refusal again too", async () => {
    const opened = await shop();
    expect((await add(opened, '"one"', { name: "" })).status).toBe(422);
    const again = await add(opened, '"one"', { name: "" });
    expect([again.status, again.headers.get("content-type")]).toEqual([422, "application/problem+json"]);
  });

  it("is forgotten after a day", async () => {
    const opened = await shop();
    await add(opened, '"one"');
    opened.pass(DAY - 1000);
    expect((await add(opened, '"one"')).headers.get("idempotency-replayed")).toBe("true");
    opened.pass(2000);
    const later = await add(opened, '"one"');
    expect([later.status, later.headers.get("idempotency-replayed")]).toEqual([201, null]);
  });

  it("is free again when the request failed on our side", async () => {
    const broken = await shop();
    await broken.db.run("ALTER TABLE owners RENAME TO away");
    expect((await add(broken, '"one"')).status).toBe(500);
    await broken.db.run("ALTER TABLE away RENAME TO owners");
    expect((await add(broken, '"one"')).status).toBe(201);
  });

  it.each(["", '""', "x".repeat(256), "tab\there"])("is refused as %j", async (key) => {
    const opened = await shop();
    const response = await add(opened, key);
    expect(response.status).toBe(400);
    expect(await response.json()).toMatchObject({ type: "/problems/header-refused" });
  });
});
