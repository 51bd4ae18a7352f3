/** Rows that the tables' own triggers make of others: what they hold is worked out once more. */
import { sql } from "drizzle-orm";
import type { Mismatch } from "../../acts/checked/mismatch.js";
import { values } from "../../records/backup/values.js";
import type { Database } from "../../records/database.js";

const MOST_TOLD = 20;

/** A column of a table, and the keys of the rows in which it is not what it is made of. */
const DERIVED: readonly (readonly [table: string, column: string, keys: string])[] = [
  [
    "job_states",
    "state",
    "SELECT s.job_id FROM job_states s LEFT JOIN job_states_now n USING (job_id) WHERE s.state IS NOT n.state",
  ],
  ...(["who", "unit", "told", "codes"] as const).map(
    (column) =>
      [
        "search_entries",
        column,
        `SELECT e.job_id FROM search_entries e LEFT JOIN search_texts t USING (job_id) WHERE e.${column} IS NOT t.${column}`,
      ] as const,
  ),
  [
    "catalogue_entries",
    "told",
    "SELECT e.kind FROM catalogue_entries e LEFT JOIN catalogue_texts t USING (kind) WHERE e.told IS NOT t.told",
  ],
  [
    "kind_uses",
    "kind",
    `SELECT u.kind FROM kind_uses u WHERE NOT EXISTS (SELECT 1 FROM estimates e, json_each(e.input, '$.items')
      WHERE e.id = u.estimate_id AND value ->> '$.part.kind' = u.kind)`,
  ],
  [
    "kind_uses",
    "estimate_id",
    `SELECT e.id FROM estimates e, json_each(e.input, '$.items') WHERE value ->> '$.part.kind' IS NOT NULL
      AND NOT EXISTS (SELECT 1 FROM kind_uses u WHERE u.estimate_id = e.id AND u.kind = value ->> '$.part.kind')`,
  ],
  [
    "part_kinds",
    "stock",
    `SELECT k.id FROM part_kinds k WHERE coalesce(k.stock, 0) <>
      coalesce((SELECT stands_at FROM stock_movements WHERE kind = k.id ORDER BY number DESC LIMIT 1), 0)`,
  ],
  [
    "stock_movements",
    "stands_at",
    `SELECT id FROM (SELECT id, stands_at - change AS before, coalesce(lag(stands_at) OVER (PARTITION BY kind ORDER BY number), 0) AS was
      FROM stock_movements) WHERE before <> was`,
  ],
  [
    "goods_in",
    "pieces",
    "SELECT g.id FROM goods_in g WHERE g.pieces IS NOT (SELECT sum(change) FROM stock_movements WHERE goods_in_id = g.id AND why = 'goods in')",
  ],
  [
    "order_lines",
    "came",
    "SELECT l.id FROM order_lines l WHERE l.came <> coalesce((SELECT sum(pieces) FROM goods_in WHERE order_line_id = l.id), 0)",
  ],
  ["order_lines", "ended", "SELECT id FROM order_lines WHERE ended <> (order_id IN (SELECT id FROM order_endings))"],
  ...(["good", "bad"] as const).map(
    (column) =>
      [
        "seen_good",
        column,
        `SELECT s.source FROM seen_good s WHERE s.${column} IS NOT (SELECT sum(t.${column}) FROM goods_in_tests t
          JOIN goods_in g ON g.id = t.goods_in_id WHERE g.source = s.source AND g.state = s.state)`,
      ] as const,
  ),
];

export async function derivedOtherwise(db: Database): Promise<Mismatch[]> {
  const found: Mismatch[] = [];
  for (const [table, column, keys] of DERIVED)
    for (const [key] of await values<[string]>(db, sql`${sql.raw(keys)} LIMIT ${MOST_TOLD}`))
      found.push({ is: "row otherwise", in: table, id: String(key), column });
  return found;
}
