import { createClient } from "@libsql/client/web";
/** libSQL over HTTP, for the edge and for any hosted database. */
import { drizzle } from "drizzle-orm/libsql/web";
import type { Database } from "./database.js";
import { ConnectionLost } from "./databaseBusy.js";
import { SteadyClient } from "./steadyClient.js";

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
  const open = async () => createClient({ url, fetch: whole(wait), ...(authToken && { authToken }) });
  return drizzle(new SteadyClient({ open, over: "http", patience }));
}

/** What an answer that is none of the database's says. Whoever gave it carried nothing out. */
function unheard(status: number, body: ArrayBuffer): string | undefined {
  if (status === 400 && new TextDecoder().decode(body).includes("STREAM_EXPIRED")) return "it had ended the stream";
  if (status === 401 || status === 403) return "it takes LIBSQL_AUTH_TOKEN for none of its own";
  if (status === 404) return "there is no database at LIBSQL_URL";
  if (status === 429) return "it is asked too often";
  // Followed, a token and what the shop writes would go wherever it points.
  if (status === 0 || (status >= 300 && status < 400))
    return "it sends elsewhere, which is not followed; give LIBSQL_URL that address";
  return undefined;
}

/** Reads the answer to its end, so that one that does not come is told from what the database answers. */
const whole =
  (wait: number) =>
  async (request: Request): Promise<Response> => {
    try {
      const answer = await fetch(request, { redirect: "manual", signal: AbortSignal.timeout(wait) });
      const body = await answer.arrayBuffer();
      const why = unheard(answer.status, body);
      if (why) throw new ConnectionLost(`The database's server answered ${answer.status}: ${why}.`, { unheard: true });
      if (answer.status >= 500) throw new ConnectionLost(`The database's server answered ${answer.status}.`);
      return new Response(body, { status: answer.status, headers: { "content-type": answer.headers.get("content-type") ?? "" } });
    } catch (cause) {
      if (cause instanceof ConnectionLost) throw cause;
      if (cause instanceof Error && cause.name === "TimeoutError")
        throw new ConnectionLost(`No answer came from the database's server in ${wait / 1000} s.`, { hopeless: true, cause });
      throw new ConnectionLost("No answer came from the database's server.", { cause });
    }
  };
