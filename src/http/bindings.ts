/** What every handler finds on its context. */
import type { Database } from "../records/database.js";

export interface Bindings {
  readonly OHMWRIGHT_SECRET?: string;
  readonly LIBSQL_URL?: string;
  readonly LIBSQL_AUTH_TOKEN?: string;
}

export interface Variables {
  db: Database;
  /** The only clock. */
  clock: () => Date;
  requestId: string;
}

export interface AppEnv {
  Bindings: Bindings;
  Variables: Variables;
}
