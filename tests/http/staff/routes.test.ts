/** Every route of the app, tried by a stranger, by a technician and by tokens: a new one is shut until this list says otherwise. */
import { afterAll, beforeAll, expect, it } from "vitest";
import { apiTokens, type Scope } from "../../../src/records/apiTokens.js";
import { BASE } from "../support/documented.js";
import { person, signedIn } from "../support/people.js";
import { openShop } from "../support/shop.js";

const AT = "2026-11-25T09:00:00.000Z";

/** Open to strangers: health, what pages are made of, the ways in, and the owner's door, which wants its own link. */
const OPEN = /^\/(health$|style-|sign-in|o($|\/))/;

/** For managers alone, looking included. */
const WHOLLY = [
  "GET /api/backup",
  "GET /api/csv/:name",
  "GET /api/owners/:id/file",
  "GET /data/owners",
  "GET /data/owners/:id",
  "GET /settings/sending",
  "GET /staff",
  "GET /tokens",
];
const CHANGES = [
  "POST /api/logos",
  "POST /api/owners/:id/erasure",
  "POST /api/rate-books",
  "POST /api/restore",
  "POST /data/owners/:id/erasure",
  "POST /looking-back/rate-book",
  "POST /settings",
  "POST /settings/logo",
  "POST /settings/sending",
  "POST /settings/sending/test",
  "POST /staff",
  "POST /staff/:id/closing",
  "POST /staff/:id/invitation",
  "POST /staff/:id/opening",
  "POST /staff/:id/role",
  "POST /tokens",
  "POST /tokens/:id/revocation",
  "PUT /api/rate-books/:id",
  "PUT /api/settings",
];

/** They reckon and keep nothing, so looking is enough. */
const RECKONING = ["POST /api/estimate", "POST /api/estimate.pdf", "POST /api/estimate/refined", "POST /api/estimate/risk"];

let opened: Awaited<ReturnType<typeof peopled>>;
beforeAll(async () => {
  opened = await peopled();
});
afterAll(() => opened.close());

async function peopled() {
  const made = await openShop();
  const [tamsin, wilmot] = [await person(made, "Tamsin", "manager"), await person(made, "Wilmot", "technician")];
  const technician = await signedIn(made, wilmot);
  const token = (...scopes: Scope[]) => apiTokens.add(made.db, { staffId: tamsin, name: scopes.join(), scopes }, AT);
  const cookie = [...technician.jar].map(([name, value]) => `${name}=${value}`).join("; ");
  const routes = [
    ...new Set(made.app.routes.filter(({ method }) => method !== "ALL").map(({ method, path }) => `${method} ${path}`)),
  ];
  // Signing out is for everyone, and would end the walk.
  return { ...made, cookie, token, routes: routes.filter((route) => route !== "POST /sign-out").sort() };
}

/** What the route answers, by the name of the problem where it is one. */
async function asked(route: string, headers: Record<string, string>): Promise<string> {
  const [method, path] = route.split(" ") as [string, string];
  const address = BASE + path.replaceAll(/:\w+(\{.+?\})?(?=\/|$)/g, path.includes(":file{") ? "x.pdf" : "x");
  const looking = method === "GET";
  const body = looking ? {} : { body: "{}" };
  const answer = await opened.app.request(address, {
    method,
    headers: { origin: BASE, ...(looking ? {} : { "content-type": "application/json" }), ...headers },
    ...body,
  });
  const problem = answer.headers.get("content-type")?.startsWith("application/problem+json");
  return problem ? ((await answer.json()) as { type: string }).type.split("/").at(-1)! : String(answer.status);
}

async function refusedTo(headers: Record<string, string>, problem: string): Promise<string[]> {
  const found: string[] = [];
  // Signing out is for everyone, and would end the walk.
  for (const route of opened.routes.filter((each) => each !== "POST /sign-out"))
    if ((await asked(route, headers)) === problem) found.push(route);
  return found;
}

it("a stranger comes to the ways in and to the owner's door, and no further", async () => {
  const shut = opened.routes.filter((route) => !OPEN.test(route.split(" ")[1]!));
  expect(shut.length).toBeGreaterThan(150);
  expect(await refusedTo({}, "sign-in-wanted")).toEqual(shut);
});

it("a technician is refused what is for managers, and nothing else", async () => {
  expect(await refusedTo({ cookie: opened.cookie }, "role-wanted")).toEqual([...WHOLLY, ...CHANGES].sort());
});

it("a token that may look changes nothing, and one that may change does nothing that is a manager's", async () => {
  const ofApi = opened.routes.filter((route) => / \/(api\/|openapi\.json|problems)/.test(route));
  const changing = ofApi.filter((route) => !route.startsWith("GET") && !RECKONING.includes(route));
  const pages = opened.routes.filter((route) => !ofApi.includes(route) && !/ \/(health$|style-|o($|\/))/.test(route));
  const managers = (name: string) =>
    [...WHOLLY, ...CHANGES].filter((route) => route.includes(` /api/`) && !changing.includes(route) === (name === "looking"));
  const bearer = async (...scopes: Scope[]) => ({ authorization: `Bearer ${await opened.token(...scopes)}` });
  expect(await refusedTo(await bearer("read"), "scope-wanted")).toEqual([...pages, ...changing, ...managers("looking")].sort());
  expect(await refusedTo(await bearer("read", "write"), "scope-wanted")).toEqual(
    [...pages, ...managers("looking"), ...managers("changing")].sort(),
  );
});
