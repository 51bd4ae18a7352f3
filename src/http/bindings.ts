/** What every handler finds on its context. */
import type { Database } from "../records/database.js";

export interface Bindings {
  readonly OHMWRIGHT_SECRET?: string;
  readonly LIBSQL_URL?: string;
  readonly LIBSQL_AUTH_TOKEN?: string;
  /** Where owners reach the shop, such as https://shop.example; otherwise where the request came in. */
  readonly OHMWRIGHT_ORIGIN?: string;
}

export const ROLES = ["owner", "technician"] as const;
export type Role = (typeof ROLES)[number];

/** Who is signed in. */
export interface StaffIn {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
}

export interface Variables {
  /** Absent where nobody has to sign in: on loopback before anyone has an account. */
  staff?: StaffIn;
  db: Database;
  /** The only clock. */
  clock: () => Date;
  requestId: string;
  /** Whether a secret is wanted here, so that a page can offer to sign out. */
  guarded: boolean;
  assets: Assets;
  /** Scheme, host and port that links to the owner's page begin with. */
  origin: string;
  /** Network address the request came from. */
  address: string;
  /** A name for that address under which attempts are counted; it does not tell the address. */
  caller: (purpose: string) => Promise<string>;
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
