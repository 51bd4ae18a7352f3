/** Rows put into a database as a test wants them, past every act. */
import type { Kept } from "../../../src/records/columns.js";
import type { Database, Instant } from "../../../src/records/database.js";
import type { Rows } from "../../../src/records/noun.js";

export async function put<Value extends object, Row extends Kept>(
  db: Database,
  noun: Pick<Rows<Value, Row>, "made">,
  id: string,
  value: NoInfer<Value>,
  at: Instant,
): Promise<Row> {
  const { record, write } = await noun.made(db, id, value, at);
  await (write as unknown as Promise<unknown>);
  return record;
}

/** Refused by the database where it is not at that version any more. */
export async function change<Value extends object, Row extends Kept>(
  db: Database,
  noun: Pick<Rows<Value, Row>, "find" | "changed">,
  id: string,
  keys: NoInfer<Partial<Value>>,
  at: Instant,
  version?: number,
): Promise<Row> {
  const old = (await noun.find(db, id))!;
  const { record, write } = await noun.changed(db, version === undefined ? old : { ...old, version }, keys, at);
  await (write as unknown as Promise<unknown>);
  return record;
}
