import { createClient } from "@libsql/client/web";
/** libSQL over HTTP, for the edge and for any hosted database. */
import { drizzle } from "drizzle-orm/libsql/web";
import type { Database } from "./database.js";
import { ConnectionLost } from "./databaseBusy.js";
import { SteadyClient } from "./steadyClient.js";

/** `url` is `libsql://` or `https://` (`http://` for the development endpoint). */
export function connectWeb(url: string, authToken?: string, patience?: number): Database {
  const open = async () => createClient({ url, fetch: whole, ...(authToken && { authToken }) });
  return drizzle(new SteadyClient({ open, over: "http", patience }));
}

/** Reads the answer to its end, so that one that does not come is told from what the database answers. */
async function whole(request: Request): Promise<Response> {
  try {
    const answer = await fetch(request);
    const body = await answer.arrayBuffer();
    if (answer.status >= 500) throw new Error(`The database's server answered ${answer.status}.`);
    return new Response(body, { status: answer.status, headers: { "content-type": answer.headers.get("content-type") ?? "" } });
  } catch (cause) {
    throw new ConnectionLost("No answer came from the database's server.", { cause });
  }
}
