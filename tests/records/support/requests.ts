/** Another at the same records steps in between any two requests of the first, each gap tried: nothing is left to how long things take. */
import type { Client } from "@libsql/client";
import type { Database } from "../../../src/records/database.js";

const WAYS = ["execute", "batch", "transaction"] as const;

/** Of a connection, from now on. */
export function requestsOf(db: Database) {
  const { $client: client } = db as unknown as { readonly $client: Client };
  const waiting = new Map<number, () => void>();
  let made = 0;
  for (const way of WAYS) {
    const sends = client[way].bind(client) as (...given: unknown[]) => Promise<unknown>;
    Object.assign(client, {
      [way]: (...given: unknown[]) => {
        made += 1;
        waiting.get(made)?.();
        return sends(...given);
      },
    });
  }
  return {
    made: () => made,
    /** As the nth begins; at once for 0. */
    reached: (nth: number) => new Promise<void>((resolve) => (nth <= made ? resolve() : void waiting.set(nth, resolve))),
  };
}
