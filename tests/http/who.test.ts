/** Every route of the app, tried by everyone who might come, and held to its row in http/who.ts. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createApp } from "../../src/http/app/app.js";
import { takenBy } from "../../src/http/guard/mediaType.js";
import { site } from "../../src/http/site/index.js";
import { answering, mayUse, type Right, rightOf, type Table, WHO, withoutRow } from "../../src/http/who.js";
import { OWNER_PATHS } from "../../src/pages/owner/view.js";
import type { Scope } from "../../src/records/apiTokens.js";
import { staff } from "../../src/records/staff.js";
import { draftOf, issued, TAPE_ECHO } from "../records/support/livedIn.js";
import { BASE } from "./support/documented.js";
import { browser, person, signedIn, tokenOf } from "./support/people.js";
import { openShop } from "./support/shop.js";

const AT = "2026-11-25T09:00:00.000Z";

type Headers = Readonly<Record<string, string>>;
interface Caller {
  readonly called: string;
  /** Of a session of this walk's own: signing out ends it. */
  readonly comes: () => Headers | Promise<Headers>;
  /** What stands between this caller and a route with such a row; "in": nothing of the gate's. */
  readonly expected: (right: Right) => Outcome;
}

/** Problems by which a request is stopped before its handler, and the owner's door by which it is stopped within. */
const STOPS = ["sign-in-wanted", "sign-in-refused", "role-wanted", "scope-wanted", "owner-link-wanted"] as const;
type Outcome = "in" | "set-up" | (typeof STOPS)[number];

let opened: Awaited<ReturnType<typeof openShop>>;
let asked = 0;
let callers: readonly Caller[];

beforeAll(async () => {
  // What is wrong is counted by address, and ten times are too many.
  opened = await openShop({ addressOf: () => `192.0.2.${Math.floor(asked / 5)}` });
  const link = (await issued(opened.db, (await draftOf(opened.db, TAPE_ECHO)).id, AT)).secret.fragment;
  const owner = browser(opened);
  await owner.send(OWNER_PATHS.entry, { link });
  const [tamsin, wilmot] = [await person(opened, "Tamsin", "manager"), await person(opened, "Wilmot", "technician")];
  const bertrand = await person(opened, "Bertrand", "manager");
  const left = cookies(await signedIn(opened, bertrand));
  await staff.changing(opened.db, bertrand, { leftAt: AT }, AT);
  const session = (id: string) => async () => cookies(await signedIn(opened, id));
  const token = (staffId: string, role: "manager" | "technician", ...scopes: Scope[]): Caller => ({
    called: `a ${role}'s token that may ${scopes.join(", ")}`,
    comes: async () => bearer(await tokenOf(opened, staffId, ...scopes)),
    expected: ({ who, scope }) => {
      if (scope === undefined) return "scope-wanted";
      const runs = who !== "manager" || (role === "manager" && scopes.includes("admin"));
      return scopes.includes(scope) && runs ? "in" : "scope-wanted";
    },
  });
  callers = [
    { called: "nobody", comes: () => ({}), expected: () => "sign-in-wanted" },
    { called: "a technician", comes: session(wilmot), expected: ({ who }) => (who === "manager" ? "role-wanted" : "in") },
    { called: "a manager", comes: session(tamsin), expected: () => "in" },
    { called: "someone who left", comes: () => left, expected: () => "sign-in-wanted" },
    { called: "an owner", comes: () => cookies(owner), expected: () => "sign-in-wanted" },
    token(tamsin, "manager", "read"),
    token(tamsin, "manager", "write"),
    token(tamsin, "manager", "admin"),
    token(tamsin, "manager", "read", "admin"),
    token(tamsin, "manager", "read", "write", "admin"),
    token(wilmot, "technician", "read", "write", "admin"),
    { called: "a token nobody made", comes: () => bearer(`ohmwright_${"a".repeat(43)}`), expected: () => "sign-in-refused" },
  ];
});
afterAll(() => opened.close());

const bearer = (token: string): Headers => ({ authorization: `Bearer ${token}` });
const cookies = ({ jar }: { readonly jar: ReadonlyMap<string, string> }): Headers => ({
  cookie: [...jar].map(([name, value]) => `${name}=${value}`).join("; "),
});

/** Signing out comes last: it ends the walk. */
const routes = () => {
  const all = [...new Set(answering(opened.app.routes).map(({ method, path }) => `${method} ${path}`))];
  return [...all.filter((route) => route !== "POST /sign-out"), "POST /sign-out"]
    .filter((route) => !route.endsWith(".css"))
    .map((route) => route.split(" ") as [method: string, path: string]);
};

async function ask(method: string, path: string, headers: Headers, app = opened.app): Promise<Response> {
  asked += 1;
  const at = path.replaceAll(/:file\{\[\^\/\]\+\\(\.\w+)\}/g, "x$1").replaceAll(/:\w+(\{.+?\})?/g, "x");
  if (method === "GET") return app.request(BASE + at, { headers });
  const files = new FormData();
  files.set("x", "y");
  const type = takenBy(path)[0]!;
  const sent = type === "application/json" ? "{}" : type === "multipart/form-data" ? files : "x=y";
  const typed = sent === files ? {} : { "content-type": type };
  return app.request(BASE + at, { method, body: sent, headers: { origin: BASE, ...typed, ...headers } });
}

async function outcome(answer: Response): Promise<string> {
  if (answer.headers.get("location") === "/set-up") return "set-up";
  const problem = answer.headers.get("content-type")?.startsWith("application/problem+json");
  const name = problem ? ((await answer.json()) as { type: string }).type.split("/").at(-1)! : "";
  if ((STOPS as readonly string[]).includes(name)) return name;
  // Whoever is in meets the handler: nothing stands there under this id, or what was sent is no good.
  return [401, 405, 415, 500].includes(answer.status) ? `${answer.status} ${name}` : "in";
}

/** What a row of the table says of this caller. */
function expected(right: Right, caller: Caller): string {
  if (right.who === "everyone" || right.who === "guest") return "in";
  if (right.who === "owner") return caller.called === "an owner" ? "in" : "owner-link-wanted";
  return caller.expected(right);
}

/** The routes that answer this caller otherwise than the table says. */
async function walked(caller: Caller, table: Table = WHO, app = opened.app): Promise<string[]> {
  const wrong: string[] = [];
  const headers = await caller.comes();
  for (const [method, path] of routes()) {
    const got = await outcome(await ask(method, path, headers, app));
    const wanted = expected(rightOf({ method, path }, table)!, caller);
    if (got !== wanted) wrong.push(`${method} ${path}, asked by ${caller.called}: ${got}, not ${wanted}`);
  }
  return wrong;
}

describe("the table of who may do what", () => {
  it("has a row for every route, and a route for every row", () => {
    const there = routes().map(([method, path]) => `${method} ${path}`);
    const rows = Object.entries(WHO).flatMap(([path, methods]) => Object.keys(methods).map((method) => `${method} ${path}`));
    expect(rows.length).toBeGreaterThan(220);
    expect(rows.sort()).toEqual(there.sort());
  });

  it.each([
    "nobody",
    "a technician",
    "someone who left",
    "an owner",
    "a manager's token that may read",
    "a manager's token that may write",
    "a manager's token that may admin",
    "a manager's token that may read, admin",
    "a manager's token that may read, write, admin",
    "a technician's token that may read, write, admin",
    "a token nobody made",
    "a manager",
  ])("is what %s meets at every route", { timeout: 30_000 }, async (called) => {
    expect(await walked(callers.find((each) => each.called === called)!)).toEqual([]);
  });

  it("lets everyone in before anyone has an account, but to accounts", async () => {
    const first = await openShop();
    const wrong = await walked(
      {
        called: "whoever comes first",
        comes: () => ({}),
        expected: ({ ofAccounts, scope }) => (!ofAccounts ? "in" : scope ? "sign-in-wanted" : "set-up"),
      },
      WHO,
      first.app,
    );
    await first.close();
    expect(wrong).toEqual([]);
  }, 30_000);

  it("catches a row that says otherwise than the route does", async () => {
    const wrong = {
      ...WHO,
      "/settings": { ...WHO["/settings"], POST: WHO["/settings"].GET },
      "/api/bench-sheet.pdf": { POST: WHO["/api/owners"].POST },
      "/o/photo": { GET: WHO["/o"].GET },
    };
    const technician = callers.find(({ called }) => called === "a technician")!;
    const reader = callers.find(({ called }) => called === "a manager's token that may read")!;
    const nobody = callers.find(({ called }) => called === "nobody")!;
    expect(await walked(technician, wrong)).toEqual([
      "GET /o/photo, asked by a technician: owner-link-wanted, not in",
      "POST /settings, asked by a technician: role-wanted, not in",
    ]);
    expect((await walked(reader, wrong)).map((each) => each.split(",")[0]).sort()).toEqual([
      "GET /o/photo",
      "POST /api/bench-sheet.pdf",
    ]);
    expect(await walked(nobody, wrong)).toEqual(["GET /o/photo, asked by nobody: owner-link-wanted, not in"]);
  }, 30_000);

  it("is missed by a planted route: the app does not start, and one that is added later answers nobody", async () => {
    expect(withoutRow([...opened.app.routes.filter(({ path }) => !path.endsWith(".css")), { method: "PUT", path: "/" }])).toEqual(
      ["PUT /"],
    );
    const start = () =>
      createApp({ openDatabase: () => opened.db, assets: {}, guard: "loopback", secretOf: () => undefined, addressOf: () => "" });
    const app = start();
    app.get("/planted", (c) => c.text("here"));
    const { error } = console;
    console.error = () => undefined;
    expect((await app.request(`${BASE}/planted`)).status).toBe(500);
    console.error = error;
    site.get("/planted", (c) => c.text("here"));
    expect(start).toThrow("No row in http/who.ts says who may: GET /planted.");
    site.routes.pop();
    expect(start).not.toThrow();
  });
});

describe("what the table says of a right", () => {
  it("is what a page asks before it shows the way there", () => {
    const [manager, technician] = [{ staff: { role: "manager" } }, { staff: { role: "technician" } }] as const;
    expect([manager, technician, {}].map((caller) => mayUse(caller, "POST", "/settings"))).toEqual([true, false, true]);
    expect([manager, technician, {}].map((caller) => mayUse(caller, "GET", "/settings"))).toEqual([true, true, true]);
  });
});
