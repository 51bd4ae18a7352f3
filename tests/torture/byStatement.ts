/** The control: each statement of a write commits by itself, with a breath after it. */
import { setTimeout as breath } from "node:timers/promises";
import type { Client, InStatement } from "@libsql/client";
import type { Database } from "../../src/records/database.js";

export function byStatement(db: Database): void {
  const { $client: client } = db as unknown as { readonly $client: Client };
  const whole = client.batch.bind(client);
  client.batch = async (statements, mode) => {
    const done = [];
    for (const each of statements as InStatement[]) {
      done.push(...(await whole([each], mode)));
      await breath(3);
    }
    return done;
  };
}
