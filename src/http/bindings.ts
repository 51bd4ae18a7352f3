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
  /** Whether a secret is wanted here, so that a page can offer to sign out. */
  guarded: boolean;
  assets: Assets;
}

export interface AppEnv {
  Bindings: Bindings;
  Variables: Variables;
}

/** What the build made for browsers, by path: /style-1a2b3c.css and the like. */
export type Assets = Readonly<Record<string, Asset>>;

export interface Asset {
  readonly type: string;
  readonly body: string | Uint8Array;
  readonly etag: string;
}
