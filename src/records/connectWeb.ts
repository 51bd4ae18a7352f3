import { createClient } from "@libsql/client/web";
/** libSQL over HTTP, for the edge and for any hosted database. */
import { drizzle } from "drizzle-orm/libsql/web";
import type { Database } from "./database.js";

/** `url` is `libsql://` or `https://` (`http://` for the development endpoint). */
export function connectWeb(url: string, authToken?: string): Database {
  return drizzle(createClient(authToken ? { url, authToken } : { url }));
}
