/** No trigger reads a table from end to end that grows with the shop: each write would take longer than the one before. */
import type { Client } from "@libsql/client";
import { sql } from "drizzle-orm";
import { describe, expect, it } from "vitest";
import { shop } from "../../http/support/shop.js";

/** What a trigger asks and does, with the row it is about left open. */
function statementsOf(trigger: string): readonly string[] {
  const open = trigger.replaceAll(/\b(?:NEW|OLD)\.`?\w+`?/gi, "?").replaceAll(/RAISE\(ABORT, '[^']*'\)/g, "1");
  const [, when, body] = /(?:\sWHEN\s(.*?))?\sBEGIN\s(.*?);?\s*END\s*$/s.exec(open)!;
  const done = body!.split(/;\s*(?=INSERT|UPDATE|DELETE|SELECT)/);
  return [...(when ? [`SELECT ${when}`] : []), ...done];
}

/** Not the rows of one subquery, a shop's people, what a JSON text holds. */
const LARGE = /^SCAN (?!json_each|CONSTANT ROW|\(subquery|staff\b)/;

async function scansIn(client: Client, statement: string): Promise<readonly string[]> {
  const { rows } = await client.execute(`EXPLAIN QUERY PLAN ${statement}`);
  return rows.map(({ detail }) => String(detail)).filter((detail) => LARGE.test(detail));
}

describe("query plans of triggers", () => {
  it("show no full scan", async () => {
    const { db } = await shop();
    const client = (db as unknown as { readonly $client: Client }).$client;
    const triggers = await db.all<{ name: string; text: string }>(
      sql`SELECT name, sql AS text FROM sqlite_master WHERE type = 'trigger'`,
    );
    expect(triggers.length).toBeGreaterThan(100);
    const found: string[] = [];
    for (const { name, text } of triggers)
      for (const statement of statementsOf(text))
        for (const scan of await scansIn(client, statement)) found.push(`${name}: ${scan}: ${statement.slice(0, 200)}`);
    expect(found).toEqual([]);
    expect(await scansIn(client, "SELECT 1 FROM agreements WHERE estimate_id = ?")).toHaveLength(1);
  });
});
