import { describe, expect, it } from "vitest";
import { countKind } from "../../src/acts/countStock.js";
import { isRefused } from "../../src/records/constraint.js";
import type { Database } from "../../src/records/database.js";
import { partKinds } from "../../src/records/partKinds.js";
import { movementsOf, stockOf, takeFromStock } from "../../src/records/stock.js";
import { deskAt, done } from "../acts/support/desk.js";
import { shop } from "../http/support/shop.js";
import { at, TAPE_ECHO } from "./support/livedIn.js";
import { change, put } from "./support/put.js";

const KIND = "shelf-film";
const by = "Wilhelmina Stråhle";

async function shelf(stock?: number) {
  const { db } = await shop();
  await put(
    db,
    partKinds,
    KIND,
    { type: "film-capacitor", name: "Film capacitor", ...(stock !== undefined && { stock }) },
    at(0),
  );
  const count = async () => (await stockOf(db, [KIND])).get(KIND);
  let n = 0;
  const take = async (pieces: number) => {
    n += 1;
    await db.batch([takeFromStock(db, { id: `take-${n}`, kind: KIND, pieces, jobId: TAPE_ECHO, by, at: at(1) })] as never);
  };
  return { db, count, take };
}

const look = (db: Database, counted: number, reason: string, once?: string) =>
  done(countKind, deskAt(db, at(2)), { kind: KIND, counted, reason, by }, {}, once);

describe("stock", () => {
  it("is the sum of its movements, from what the catalogue said at first", async () => {
    const { db, count, take } = await shelf(10);
    await take(3);
    await look(db, 6, "one rolled off the bench");
    expect(await count()).toBe(6);
    const moves = await movementsOf(db, KIND);
    expect(moves.map(({ why, change, standsAt }) => [why, change, standsAt])).toEqual([
      ["counted", -1, 6],
      ["used on job", -3, 7],
      ["counted", 10, 10],
    ]);
    expect(moves.reduce((sum, { change }) => sum + change, 0)).toBe(6);
  });

  it("stays at nought when more is used than was counted, and tells how many those were", async () => {
    const { db, count, take } = await shelf(2);
    await take(5);
    expect(await count()).toBe(0);
    await take(1);
    expect((await movementsOf(db, KIND)).map(({ change, beyond }) => [change, beyond])).toEqual([
      [0, 1],
      [-2, 3],
      [2, 0],
    ]);
  });

  it("takes back what was logged and not used after all", async () => {
    const { count, take } = await shelf(4);
    await take(4);
    await take(-3);
    expect(await count()).toBe(3);
  });

  it("takes a count set in the catalogue as a movement, and moves the record's version with every change", async () => {
    const { db, count, take } = await shelf();
    const first = (await partKinds.find(db, KIND))!;
    await change(db, partKinds, KIND, { type: first.type, name: first.name, stock: 8 }, at(1), first.version);
    expect(await count()).toBe(8);
    await take(2);
    const now = (await partKinds.find(db, KIND))!;
    expect(now).toMatchObject({ stock: 6, version: 3 });
    // Someone who read the catalogue before the two were used does not bring them back.
    await expect(change(db, partKinds, KIND, { name: "Film", stock: 8 }, at(2), 2)).rejects.toSatisfy(isRefused);
    expect((await movementsOf(db, KIND)).map(({ change }) => change)).toEqual([-2, 8]);
  });

  it("counts once what is sent twice, and knows no count of a kind it does not have", async () => {
    const { db, count } = await shelf(1);
    const first = await look(db, 9, "shelf counted", "key");
    expect(first).toMatchObject({ ok: true, answer: { change: 8, standsAt: 9 } });
    expect((await movementsOf(db, KIND, 1))[0]).toEqual("answer" in first && first.answer);
    expect(await look(db, 9, "shelf counted", "key")).toMatchObject({ ok: true, replayed: { status: 200 } });
    expect(await count()).toBe(9);
    const nowhere = { kind: "nowhere", counted: 9, reason: "shelf counted", by };
    expect(await done(countKind, deskAt(db, at(2)), nowhere, {})).toMatchObject({
      refusal: { errors: [{ pointer: "/kind", name: "record unknown" }] },
    });
  });

  it("keeps every movement as it was written", async () => {
    const { db } = await shelf(3);
    for (const change of ["update stock_movements set change = 1", "delete from stock_movements"])
      await expect(db.run(change)).rejects.toThrow();
    await expect(
      db.run(
        `insert into stock_movements (id, kind, why, change, beyond, stands_at, at, "by") values ('x', '${KIND}', 'counted', 1, 0, 9, '', '')`,
      ),
    ).rejects.toThrow();
  });
});
