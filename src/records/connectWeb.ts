import { type Client, createClient, type TransactionMode } from "@libsql/client/http";
/** libSQL over HTTP, for the edge and for any hosted database. */
import { drizzle } from "drizzle-orm/libsql/http";
import type { Database } from "./database.js";
import { ConnectionLost } from "./databaseBusy.js";
import type { Statement } from "./sideBySide.js";
import { SteadyClient } from "./steadyClient.js";
import { type Heard, webReads } from "./webReads.js";

interface Waiting {
  /** Milliseconds that a lock is waited for in all. */
  readonly patience?: number;
  /** Milliseconds that an answer is waited for: someone waits behind a page, nobody behind a command. */
  readonly wait?: number;
}

const WAIT = 10_000;
export const UNHURRIED: Waiting = { wait: 300_000 };

/** `url` is `libsql://` or `https://` (`http://` for the development endpoint). */
export function connectWeb(url: string, authToken?: string, { patience, wait = WAIT }: Waiting = {}): Database {
  const ask = heard(wait);
  const open = async () => {
    const client = createClient({
      ...{ url, fetch: async (request: Request) => responseOf(await ask(request)) },
      ...(authToken && { authToken }),
    });
    const [batch, reads] = [client.batch.bind(client), webReads(url, authToken, ask)];
    return Object.assign(client, {
      batch: (asked: Statement[], mode?: TransactionMode) => (mode === "deferred" ? reads(asked) : batch(asked, mode)),
    } satisfies Partial<Client>);
  };
  return drizzle(new SteadyClient({ open, over: "http", patience }));
}

const responseOf = ({ status, body, type }: Heard): Response => new Response(body, { status, headers: { "content-type": type } });

/** What an answer that is none of the database's says. Whoever gave it carried nothing out. */
function unheard(status: number, body: string): string | undefined {
  if (status === 400 && body.includes("STREAM_EXPIRED")) return "it had ended the stream";
  if (status === 401 || status === 403) return "it takes LIBSQL_AUTH_TOKEN for none of its own";
  if (status === 404) return "there is no database at LIBSQL_URL";
  if (status === 429) return "it is asked too often";
  // Followed, a token and what the shop writes would go wherever it points.
  if (status === 0 || (status >= 300 && status < 400))
    return "it sends elsewhere, which is not followed; give LIBSQL_URL that address";
  return undefined;
}

/** Reads the answer to its end, so that one that does not come is told from what the database answers. */
const heard =
  (wait: number) =>
  async (...asked: Parameters<typeof fetch>): Promise<Heard> => {
    try {
      const answer = await fetch(asked[0], { ...asked[1], redirect: "manual", signal: AbortSignal.timeout(wait) });
      const { status } = answer;
      const body = await answer.text();
      const why = unheard(status, body);
      if (why) throw new ConnectionLost(`The database's server answered ${status}: ${why}.`, { unheard: true });
      if (status >= 500) throw new ConnectionLost(`The database's server answered ${status}.`);
      return { status, body, type: answer.headers.get("content-type") ?? "" };
    } catch (cause) {
      if (cause instanceof ConnectionLost) throw cause;
      if (cause instanceof Error && cause.name === "TimeoutError")
        throw new ConnectionLost(`No answer came from the database's server in ${wait / 1000} s.`, { hopeless: true, cause });
      throw new ConnectionLost("No answer came from the database's server.", { cause });
    }
  };
