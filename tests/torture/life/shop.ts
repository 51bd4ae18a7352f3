/** A shop that is lived in: its app over a file of its own, a clock that is set, and every act sent as the world sends them: again, twice at once, cut off by a crash, met by a failing statement. */
import { copyFile, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Watching from "libsql";
import { createApp } from "../../../src/http/app/app.js";
import { connectFile } from "../../../src/records/connectFile.js";
import type { Database } from "../../../src/records/database.js";
import type { dice } from "../fuzz.js";
import { statementsOf } from "../statements.js";
import type { Look } from "./holds.js";
import type { ShopKind } from "./shops.js";

export const BASE = "http://localhost:4700";

export interface Answer {
  readonly status: number;
  readonly text: string;
  readonly replayed: boolean;
  readonly etag?: string;
}

/** What a control spoils on the way. */
export interface Spoiled {
  readonly request?: (init: RequestInit) => RequestInit;
  readonly page?: (path: string, text: string) => string;
}

export type Dice = ReturnType<typeof dice>;
export type Sending = "once" | "again" | "at once" | "crash" | "statement";

/** Written without any act, or forgotten with time. */
const BESIDE = /^(sqlite_|__drizzle|open_needs|replies|attempts|sessions|owner_entries|owner_attempts|keys|signing)/;

export async function openedShop(kind: ShopKind, spoiled: Spoiled = {}) {
  const { path, made: rateBook } = await kind.file();
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-life-"));
  const file = join(folder, "shop.db");
  await copyFile(path, file);
  let now = new Date(0);
  const open = async () => {
    const { db, close } = await connectFile(`file:${file}`);
    // What a machine that stops does is another test's.
    await db.run("PRAGMA synchronous = OFF");
    const app = createApp({
      openDatabase: () => db,
      assets: {},
      guard: "loopback",
      secretOf: () => undefined,
      addressOf: () => "127.0.0.1",
      originOf: () => BASE,
      passphraseCost: { n: 16, r: 1, p: 1 },
      clock: () => now,
      write: () => undefined,
    });
    return { db, close, app, failing: statementsOf(db, "written") };
  };
  let at = await open();
  const tables = (await at.db.run("SELECT name, sql FROM sqlite_master WHERE type = 'table'")).rows.flatMap(({ name, sql }) =>
    BESIDE.test(String(name)) ? [] : [{ name: String(name), versioned: /[`"]version[`"]/.test(String(sql)) }],
  );
  const counts = tables.map(
    ({ name, versioned }) => `SELECT count(*) || ${versioned ? "'v' || total(version)" : "''"} AS n FROM "${name}"`,
  );
  // Of a connection of its own, prepared once: asked before and after each act.
  const watching = new Watching(file);
  const standing = watching.prepare(`SELECT group_concat(n, ' ') AS said FROM (${counts.join(" UNION ALL ")})`);

  const request = async (method: string, to: string, init: RequestInit = {}): Promise<Response> => {
    const whole = { method, ...init };
    return at.app.request(new Request(`${BASE}${to}`, spoiled.request ? spoiled.request(whole) : whole));
  };
  const asJson = (body: unknown, headers: Record<string, string>): RequestInit => ({
    body: JSON.stringify(body),
    headers: { "content-type": "application/json", ...headers },
  });
  const post = async (method: string, to: string, body: unknown, headers: Record<string, string>): Promise<Answer> => {
    const answer = await request(method, to, asJson(body, headers));
    const etag = answer.headers.get("etag");
    return {
      ...{ status: answer.status, text: await answer.text(), replayed: answer.headers.get("idempotency-replayed") === "true" },
      ...(etag !== null && { etag }),
    };
  };
  const look: Look = async (to) => {
    const answer = await request("GET", to, { headers: { accept: to.startsWith("/api") ? "*/*" : "text/html" } });
    const bytes = new Uint8Array(await answer.arrayBuffer());
    const text = answer.headers.get("content-type")?.includes("pdf") ? "" : new TextDecoder().decode(bytes);
    return { status: answer.status, text: spoiled.page ? spoiled.page(to, text) : text, bytes };
  };

  return {
    rateBook,
    get db(): Database {
      return at.db;
    },
    /** For a browser without script: the one app, whichever process it is by now. */
    app: { request: (url: string, init?: RequestInit) => at.app.request(url, init) },
    look,
    post,
    now: () => now,
    set: (to: Date) => {
      now = to;
    },
    /** Everything of the process is gone; the file stays. */
    crash: async () => {
      at.close();
      at = await open();
    },
    /** Changes with any write of an act. */
    standing: (): string => (standing.get() as { said: string }).said,
    failing: () => at.failing,
    close: async () => {
      at.close();
      watching.close();
      await rm(folder, { recursive: true });
    },
  };
}

const idIn = ({ text }: Answer): unknown => (JSON.parse(text) as { id?: unknown }).id;

export type LivedIn = Awaited<ReturnType<typeof openedShop>>;

/** Sent so, with what is wrong about how it was taken. */
export async function sent(
  shop: LivedIn,
  how: Sending,
  key: string,
  method: string,
  to: string,
  body: unknown,
  headers: Record<string, string> = {},
): Promise<{ readonly answer: Answer; readonly faults: string[] }> {
  const faults: string[] = [];
  const before = shop.standing();
  const keyed = method === "POST" ? { ...headers, "idempotency-key": key } : headers;
  const send = () => shop.post(method, to, body, keyed);
  const done = ({ status }: Answer) => status < 300;
  let answer: Answer;
  if (how === "statement") {
    shop.failing().at(1 + (key.charCodeAt(0) % 5));
    answer = await send();
    const failed = shop.failing().failed();
    shop.failing().at(0);
    if (failed !== undefined) {
      const stands = shop.standing() !== before;
      // Decided again, it may have come through.
      if (done(answer) !== stands)
        faults.push(`'${failed}' failed: ${answer.status}, and ${stands ? "something" : "nothing"} stands`);
      if (!done(answer)) answer = await send();
    }
  } else if (how === "at once") {
    const [one, other] = await Promise.all([send(), send()]);
    answer = one.replayed ? other : one;
    const second = one.replayed ? one : other;
    if (method === "POST" && done(answer) && (!second.replayed || idIn(second) !== idIn(answer)))
      faults.push(
        `sent twice at once: ${answer.status} and ${second.status}, ${second.replayed ? "another answer" : "done twice"}`,
      );
  } else answer = await send();

  const after = shop.standing();
  if (answer.status >= 500) faults.push(`answered by a fault of ours: ${answer.status} ${answer.text.slice(0, 300)}`);
  if (!done(answer) && answer.status < 500 && after !== before && how !== "at once")
    faults.push(`refused (${answer.status}), and something is written`);
  if (how === "crash") await shop.crash();
  if ((how === "again" || how === "crash") && method === "POST" && done(answer)) {
    const again = await send();
    if (!again.replayed || again.status !== answer.status)
      faults.push(`sent again it is ${again.status}${again.replayed ? "" : ", not the first answer"}`);
    if (shop.standing() !== after) faults.push("sent again it is done twice");
  }
  return { answer, faults };
}
