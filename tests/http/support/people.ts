/** People of a test shop: accounts written straight to the records, and a browser that keeps cookies. */
import { serializeSigned } from "hono/utils/cookie";
import { uuidv7 } from "uuidv7";
import { apiTokens, newToken, type Scope } from "../../../src/records/apiTokens.js";
import { newSession, sessions } from "../../../src/records/sessions.js";
import { signingKey } from "../../../src/records/signingKey.js";
import { joining, newStaff, type Role, staff } from "../../../src/records/staff.js";
import { BASE } from "./documented.js";
import { formsOn } from "./noScript.js";
import type { shop } from "./shop.js";

type Shop = Awaited<ReturnType<typeof shop>>;
const AT = "2026-11-25T09:00:00.000Z";

/** Someone with an account that can be used, without slow ways in. */
export async function person({ db }: Pick<Shop, "db">, name: string, role: Role): Promise<string> {
  const id = `staff-${name.toLowerCase().replaceAll(" ", "-")}`;
  await staff.adding(db, newStaff(id, name, role, AT));
  await joining(db, id, AT);
  return id;
}

/** A browser at one place of the shop. */
export function browser({ app }: Pick<Shop, "app">, base = BASE) {
  const jar = new Map<string, string>();
  const ask = async (path: string, init: RequestInit = {}): Promise<Response> => {
    const headers = new Headers({ accept: "text/html", ...(init.headers as Record<string, string>) });
    if (jar.size > 0) headers.set("cookie", [...jar].map(([name, value]) => `${name}=${value}`).join("; "));
    const answer = await app.request(new Request(base + path, { ...init, headers }));
    for (const line of answer.headers.getSetCookie()) {
      const [, name, value] = /^([^=]+)=([^;]*)/.exec(line)!;
      if (/max-age=0/i.test(line)) jar.delete(name!);
      else jar.set(name!, value!);
    }
    return answer;
  };
  return {
    jar,
    ask,
    get: (path: string) => ask(path),
    /** Sends a form of our own page. */
    send: (path: string, fields: Record<string, string> | [string, string][] = {}, headers: Record<string, string> = {}) =>
      ask(path, { method: "POST", body: new URLSearchParams(fields), headers: { origin: base, ...headers } }),
    /** What the page's script asks for. */
    options: async (path: string, fields: Record<string, string> = {}) => {
      const answer = await ask(path, {
        method: "POST",
        body: new URLSearchParams(fields),
        headers: { origin: base, accept: "*/*" },
      });
      return (await answer.json()) as { challenge: string; user: { id: string }; rp: { id: string }; rpId: string };
    },
  };
}

/** A token of theirs. */
export async function tokenOf({ db }: Pick<Shop, "db">, staffId: string, ...scopes: Scope[]): Promise<string> {
  const { token, row } = await newToken(uuidv7(), { staffId, name: scopes.join(), scopes }, AT);
  await apiTokens.adding(db, row);
  return token;
}

/** A browser in which someone is signed in. */
export async function signedIn(opened: Pick<Shop, "app" | "db">, staffId: string, secret?: string) {
  const { row, token } = await newSession({ staffId, how: "passkey", agent: "a test" }, AT);
  await sessions.adding(opened.db, row);
  const cookie = await serializeSigned("ohmwright-staff", token, secret ?? (await signingKey(opened.db, AT)));
  const at = browser(opened);
  at.jar.set("ohmwright-staff", cookie.split(";")[0]!.slice("ohmwright-staff=".length));
  return at;
}

/** The largest form of a page as a browser would send it, but for a button. */
export const fieldsIn = (html: string): Record<string, string> =>
  Object.fromEntries(formsOn(html).sort((a, b) => b.fields.length - a.fields.length)[0]!.fields);
