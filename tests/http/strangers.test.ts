/**
 * Every route, asked for something of another job and for something that is not there, by each who may have neither. Both are answered alike
 * (status, headers and body, but for the request's own number and the id asked for) after the same look-ups of the database: what
 * takes as many statements takes as long, as far as a clock across a network can tell.
 */
import type { Client, InArgs, InStatement, ResultSet } from "@libsql/client";
import { afterAll, beforeAll, expect, it } from "vitest";
import { takenBy } from "../../src/http/guard/mediaType.js";
import { answering, rightOf } from "../../src/http/who.js";
import { OWNER_PATHS } from "../../src/pages/owner/view.js";
import { estimates } from "../../src/records/estimates.js";
import { issues } from "../../src/records/issues.js";
import { jobs } from "../../src/records/jobs.js";
import { newPassphrase, passphrases } from "../../src/records/passphrases.js";
import { randomText } from "../../src/records/secrets.js";
import { eventsOf } from "../../src/records/trail.js";
import { issued, livedIn, TAPE_ECHO } from "../records/support/livedIn.js";
import { BASE } from "./support/documented.js";
import { browser, person, signedIn, tokenOf } from "./support/people.js";
import { openShop } from "./support/shop.js";

const AT = "2026-11-25T09:00:00.000Z";
const COST = { n: 16, r: 1, p: 1 };

interface Answer {
  readonly status: number;
  readonly headers: readonly string[];
  readonly body: string;
  readonly statements: readonly string[];
}

/** What stands there, of another job; and as long a name that nothing has. */
interface Pair {
  readonly there: string;
  readonly invented: string;
}

interface Stranger {
  readonly called: string;
  readonly headers: Readonly<Record<string, string>>;
  /** Whether they are kept out of the route. */
  readonly outside: (method: string, path: string) => boolean;
}

let opened: Awaited<ReturnType<typeof openShop>>;
let asked = 0;
let statements: string[] = [];
let strangers: readonly Stranger[];
let theirs: Awaited<ReturnType<typeof livedIn>>;
let owner: Readonly<Record<string, string>>;
/** By the noun an id stands after. */
const ids = new Map<string, string>();

beforeAll(async () => {
  opened = await openShop({ addressOf: () => `192.0.${asked >> 8}.${asked & 255}` });
  const { db } = opened;
  theirs = await livedIn(db);
  const others = (await jobs.list(db, { limit: 50 })).rows.filter(({ id }) => id !== TAPE_ECHO);
  const drafts = (await Promise.all(others.map(({ id }) => estimates.ofJob(db, id)))).flat();
  const own = await issued(db, drafts.find(({ issuedAt }) => issuedAt === undefined)!.id, AT);
  const visitor = browser(opened);
  await visitor.send(OWNER_PATHS.entry, { link: own.secret.fragment });
  owner = cookies(visitor);
  const [tamsin, wilmot] = [await person(opened, "Tamsin", "manager"), await person(opened, "Wilmot", "technician")];
  await passphrases.setting(db, wilmot, await newPassphrase("kettle thimble orchard", AT, COST));
  const writes = await tokenOf(opened, tamsin, "write");
  strangers = [
    { called: "an owner of another job", headers: owner, outside: (_, path) => !path.startsWith("/o/") },
    {
      called: "a technician",
      headers: cookies(await signedIn(opened, wilmot)),
      outside: (method, path) => rightOf({ method, path })!.who === "manager",
    },
    {
      called: "a token that may not read",
      headers: { authorization: `Bearer ${writes}` },
      outside: (method, path) => rightOf({ method, path })!.scope !== "write",
    },
  ];
  const named: Readonly<Record<string, string>> = {
    ...{ jobs: "jobs", estimates: "estimates", owners: "owners", units: "units", models: "models", kinds: "part_kinds" },
    ...{ "part-kinds": "part_kinds", offers: "offers", "rate-books": "rate_books", links: "owner_links", photos: "photos" },
    ...{ "owner-links": "owner_links", questions: "questions", "work-log": "work_log", staff: "staff", tokens: "api_tokens" },
  };
  for (const [noun, table] of Object.entries(named)) {
    const own = ["jobs", "estimates"].includes(noun) ? `WHERE id LIKE '${noun === "jobs" ? TAPE_ECHO : "draft-2"}'` : "";
    ids.set(noun, ((await db.run(`SELECT id FROM ${table} ${own} LIMIT 1`)).rows[0] as unknown as { id: string }).id);
  }
  // A shop reads its signing key once.
  for (const { headers } of strangers) await opened.app.request(BASE, { headers });
  counted((db as typeof db & { readonly $client: Client }).$client);
});
afterAll(() => opened.close());

const cookies = ({ jar }: { readonly jar: ReadonlyMap<string, string> }) => ({
  cookie: [...jar].map(([name, value]) => `${name}=${value}`).join("; "),
});

/** Notes what each statement says; what it is about stands beside it. */
function counted(client: Client) {
  const execute: (statement: InStatement) => Promise<ResultSet> = client.execute.bind(client);
  const batch = client.batch.bind(client);
  const note = (statement: InStatement | [string, InArgs?]) => {
    const sql = typeof statement === "string" ? statement : Array.isArray(statement) ? statement[0] : statement.sql;
    statements.push(sql.replace(/ values \(.*/s, ""));
  };
  client.execute = (statement: InStatement) => {
    note(statement);
    return execute(statement);
  };
  client.batch = (all, mode) => {
    for (const statement of all) note(statement);
    return batch(all, mode);
  };
}

/** Each character becomes another of its kind. */
const inventedLike = (id: string): string =>
  id.replaceAll(/[0-9a-z]/gi, (letter) => (/\d/.test(letter) ? "7" : letter === letter.toUpperCase() ? "Q" : "e"));
const pairOf = (there: string): Pair => ({ there, invented: inventedLike(there) });

async function answered(request: () => Request, name: string, app: Asked): Promise<Answer> {
  asked += 1;
  statements = [];
  const answer = await app.request(request());
  // The request's number first: a short name may stand within it.
  const number = answer.headers.get("x-request-id")!;
  const plain = (text: string) =>
    text.replaceAll(number, "REQUEST").replaceAll(encodeURIComponent(name), "NAME").replaceAll(name, "NAME");
  return {
    status: answer.status,
    headers: [...answer.headers].map(([key, value]) => `${key}: ${plain(value)}`),
    body: plain(await answer.text()),
    statements,
  };
}

type Asked = Pick<typeof opened.app, "request">;

/** What tells the two apart, if anything does. */
async function tell({ there, invented }: Pair, request: (name: string) => Request, app: Asked): Promise<string | undefined> {
  const [one, other] = [await answered(() => request(there), there, app), await answered(() => request(invented), invented, app)];
  const apart = (["status", "headers", "body", "statements"] as const).filter(
    (part) => JSON.stringify(one[part]) !== JSON.stringify(other[part]),
  );
  return apart.length > 0 ? `${apart.join(", ")}: ${one.status} and ${other.status}` : undefined;
}

const routes = () =>
  answering(opened.app.routes)
    .filter(({ path }) => !path.endsWith(".css"))
    .map(({ method, path }) => ({ method, path }));

function requestTo(
  method: string,
  path: string,
  headers: Readonly<Record<string, string>>,
  sent?: Readonly<Record<string, string>>,
) {
  if (method === "GET") return new Request(BASE + path, { headers: { accept: "text/html", ...headers } });
  const type = takenBy(path)[0]!;
  const body = sent ? new URLSearchParams(sent) : type === "application/json" ? "{}" : "";
  return new Request(BASE + path, { method, body, headers: { origin: BASE, "content-type": type, ...headers } });
}

/** What each stranger can tell, of the routes that have a name in their address. */
async function told(app: Asked, only = ""): Promise<{ readonly asked: number; readonly tells: readonly string[] }> {
  const tells: string[] = [];
  let asked = 0;
  for (const { method, path } of routes()) {
    if (!path.includes(":") || !path.startsWith(only)) continue;
    for (const { called, headers, outside } of strangers) {
      if (!outside(method, path)) continue;
      asked += 1;
      const noun = /\/([a-z-]+)\/:/.exec(path)?.[1] ?? "jobs";
      const pair = pairOf(ids.get(noun) ?? TAPE_ECHO);
      const at = (name: string) =>
        path
          .replaceAll(/:file\{\[\^\/\]\+\\(\.\w+)\}/g, `${name}$1`)
          .replace(/:\w+(\{.+?\})?/, name)
          .replaceAll(/:\w+(\{.+?\})?/g, "x");
      const found = await tell(pair, (name) => requestTo(method, at(name), headers), app);
      if (found) tells.push(`${method} ${path}, asked by ${called}: ${found}`);
    }
  }
  return { asked, tells };
}

it("what stands at another job's address is told from what stands at none by nobody who may not see it, at any route", async () => {
  const { asked, tells } = await told(opened.app);
  expect(tells).toEqual([]);
  expect(asked).toBeGreaterThan(200);
}, 30_000);

it("an owner's link opens nothing of another job, by whatever the address or the form names", async () => {
  const { db, app } = opened;
  const { contentHash } = (await issues.find(db, theirs.second.record.id))!;
  const [hash, before] = [pairOf(contentHash), await eventsOf(db, TAPE_ECHO)];
  const REVISION = { there: "000000002", invented: "000000007" };
  const looked: readonly (readonly [path: string, pair: Pair])[] = [
    ["/o/estimate?revision=NAME", REVISION],
    ["/o/estimate.pdf?revision=NAME", REVISION],
    ["/o/photo?revision=1&id=NAME", pairOf("photo-1")],
    ["/o/final-account.pdf?revision=NAME", REVISION],
  ];
  for (const [path, pair] of looked)
    for (const accept of ["text/html", "application/json"]) {
      const at = (name: string) => requestTo("GET", path.replace("NAME", name), { ...owner, accept });
      expect(await tell(pair, at, app), path).toBeUndefined();
      expect((await app.request(at(pair.there))).status, path).toBe(404);
    }
  for (const path of ["/o/price", "/o/check", "/o/agreement", "/o/question"])
    for (const accept of ["text/html", "application/json"]) {
      const at = (name: string) =>
        requestTo("POST", path, { ...owner, accept }, { hash: name, name: "Ottilie", answer: "agreed", text: "When?" });
      expect(await tell(hash, at, app), path).toBeUndefined();
      // A page leads to the estimate that is shown here, and says that nothing was sent.
      expect((await app.request(at(contentHash))).status, path).toBe(accept === "text/html" ? 303 : 409);
    }
  const walked = [...looked.map(([path]) => path.split("?")[0]), "/o/price", "/o/check", "/o/agreement", "/o/question"];
  const all = routes().flatMap(({ path }) => (path.startsWith("/o/") ? [path] : []));
  // An entry is tried below; the calendar takes nothing that names a job.
  expect([...walked, "/o/entry", "/o/calendar.ics"].sort()).toEqual(all.sort());
  expect(await eventsOf(db, TAPE_ECHO)).toEqual(before);
});

it("what is guessed at a door is looked up alike whether a part of it is right or none is", async () => {
  const { app } = opened;
  const [id = ""] = theirs.first.secret.fragment.split(".");
  const doors: readonly (readonly [path: string, pair: Pair, sent: (name: string) => Readonly<Record<string, string>>])[] = [
    ["/o/entry", pairOf(id), (name) => ({ link: `${name}.${randomText(18)}` })],
    ["/o/entry", { there: "J-2026-0002", invented: "J-2026-9999" }, (number) => ({ number, code: "00000-00000" })],
    ["/sign-in", { there: "Wilmot", invented: "Nobody" }, (name) => ({ name, passphrase: "kettle thimble orchid" })],
  ];
  for (const [path, pair, sent] of doors)
    for (const accept of ["text/html", "application/json"]) {
      const found = await tell(pair, (name) => requestTo("POST", path, { accept }, sent(name)), app);
      expect(found, `${path} ${accept}`).toBeUndefined();
    }
});

it("a token that was revoked is answered at every route as one that was never made", async () => {
  const { app, db } = opened;
  const there = await tokenOf(opened, await person(opened, "Bertrand", "manager"), "read", "write", "admin");
  await db.run("UPDATE api_tokens SET revoked_at = made_at WHERE staff_id = 'staff-bertrand'");
  const pair = { there, invented: `ohmwright_${randomText(32)}` };
  const tells: string[] = [];
  for (const { method, path } of routes()) {
    // Nothing is asked of who comes there, or nothing of tokens.
    if (["everyone", "guest", "owner"].includes(rightOf({ method, path })!.who)) continue;
    const at = path.replaceAll(/:file\{\[\^\/\]\+\\(\.\w+)\}/g, "x$1").replaceAll(/:\w+(\{.+?\})?/g, "x");
    const found = await tell(pair, (token) => requestTo(method, at, { authorization: `Bearer ${token}` }), app);
    if (found) tells.push(`${method} ${path}: ${found}`);
  }
  expect(tells).toEqual([]);
}, 30_000);

it("would catch a header, a letter or a look-up more where something stands", async () => {
  const planted = (change: (answer: Response, there: boolean) => Response | Promise<Response>): Asked => ({
    request: async (request) => {
      const { url } = request as Request;
      return change(await opened.app.request(request as Request), url.includes(TAPE_ECHO));
    },
  });
  const catches = async (app: Asked) => (await told(app, "/jobs/:id")).tells.join("\n");
  const header = planted((answer, there) => {
    if (there) answer.headers.set("x-there", "yes");
    return answer;
  });
  expect(await catches(header)).toContain("GET /jobs/:id, asked by an owner of another job: headers: 303 and 303");
  const lookUp = planted(async (answer, there) => {
    if (there) await opened.db.run("SELECT 1");
    return answer;
  });
  expect(await catches(lookUp)).toContain("GET /jobs/:id, asked by an owner of another job: statements");
  const letter = planted(async (answer, there) =>
    there ? new Response(`${await answer.text()} `, { status: answer.status, headers: answer.headers }) : answer,
  );
  expect(await catches(letter)).toContain("asked by an owner of another job: body");
}, 30_000);
