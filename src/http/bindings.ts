/** What every handler finds on its context. */
import type { Scope } from "../records/apiTokens.js";
import type { Database } from "../records/database.js";
import type { Bucket } from "../records/photoBucket.js";
import type { PhotoStore } from "../records/photoStore.js";
import type { Cost } from "../records/secrets.js";
import type { Session } from "../records/sessions.js";
import type { Role } from "../records/staff.js";
import type { Right } from "./who.js";

export interface Bindings {
  readonly OHMWRIGHT_SECRET?: string;
  readonly LIBSQL_URL?: string;
  readonly LIBSQL_AUTH_TOKEN?: string;
  /** Where owners reach the shop, such as https://shop.example; otherwise where the request came in, unless only this machine opens that. */
  readonly OHMWRIGHT_ORIGIN?: string;
  /** Hosts on the network behind the shop that its send hook may call, with commas between. */
  readonly OHMWRIGHT_HOOK_HOSTS?: string;
  /** The bucket photos are kept in (R2). */
  readonly PHOTOS?: Bucket;
  /** What browsers load, by the address it stands at. */
  readonly ASSETS?: { readonly fetch: (address: URL) => Promise<Response> };
}

/** Who is signed in. */
export interface StaffIn {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
}

export interface Variables {
  /** Who may; absent: nothing stands at the address. */
  right?: Right;
  /** Absent where nobody has to sign in: on loopback before anyone has an account. */
  staff?: StaffIn;
  /** The browser's session, where that is how the staff came in. */
  session?: Session;
  /** What the token may, where that is how the staff came in. */
  scopes?: readonly Scope[];
  db: Database;
  /** Absent: no place for photos is set up. */
  photos?: PhotoStore;
  /** The body as it comes in, read no faster than it is taken. */
  body: () => ReadableStream<Uint8Array> | null;
  /** The only clock. */
  clock: () => Date;
  /** Calls the send hook, where it may be called; answers its status, and why the call failed. */
  callHook: (
    url: string,
    headers: Readonly<Record<string, string>>,
    body: string,
  ) => Promise<{ readonly status?: number; readonly why?: string }>;
  requestId: string;
  /** Whether someone can sign out here. */
  guarded: boolean;
  /** Whether the address is one that other machines reach, so that the shop's secret counts. */
  reachable: boolean;
  /** What a new passphrase costs to try; absent: the cost of the records. */
  passphraseCost?: Cost;
  /** What signs cookies. */
  signingKey: () => Promise<string>;
  assets: Assets;
  /** Scheme, host and port where the shop is reached. */
  origin: string;
  /** The same where owners reach it too, so that links to their page begin with it; absent: only this machine opens it. */
  publicOrigin?: string;
  /** Network address the request came from. */
  address: string;
  /** A name for its place (guard/place) under which attempts are counted; it does not tell the address. */
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
  /** Absent on the edge, which keeps it beside the program. */
  readonly body?: string | Uint8Array;
  readonly etag: string;
}
