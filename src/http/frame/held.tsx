/** A form sent after the sign-in had ended is answered with the sign-in page that carries it: nothing typed is lost, nothing is done. */
import { z } from "@hono/zod-openapi";
import type { Context } from "hono";
import { SendAgain } from "../../pages/staff/signIn.js";
import type { HeldForm } from "../../pages/staff/view.js";
import type { AppEnv } from "../bindings.js";
import { bareAnswer, lookOf, showSignIn } from "./bare.js";

const FORM = /^(application\/x-www-form-urlencoded|multipart\/form-data)\b/i;

/** Never written into a page that someone else may read: they are typed again. */
const SECRET = new Set(["passphrase", "current", "secret", "passkey"]);

/** Nobody is signed in yet, so no more than this is read, and a longer form is not begun. */
const KEPT_BYTES = 64_000;
const KEPT_FIELDS = 500;
const TOO_LONG =
  "You are not signed in, and this form is too long to be kept here. Sign in in another window; then go back to the form and send it again.";

/** Nothing when what was sent is no form. */
export async function holdForm(c: Context<AppEnv>): Promise<Response | undefined> {
  const type = FORM.exec(c.req.header("content-type") ?? "")?.[1];
  if (c.req.method !== "POST" || type === undefined) return undefined;
  const { pathname, search } = new URL(c.req.url);
  const tooLong = () => showSignIn(c, { to: pathname, status: 401, errors: new Map([["", TOO_LONG]]) });
  const bytes = Number(c.req.header("content-length") ?? 0) > KEPT_BYTES ? undefined : await readUpTo(c.req.raw.body, KEPT_BYTES);
  if (!bytes) return tooLong();
  const form = await new Response(bytes, { headers: { "content-type": c.req.header("content-type")! } })
    .formData()
    .catch(() => undefined);
  if (!form) return undefined;
  const sent = [...form].filter(([name]) => !SECRET.has(name));
  if (sent.length > KEPT_FIELDS) return tooLong();
  const held: HeldForm = {
    path: pathname + search,
    kind: type.toLowerCase() === "multipart/form-data" ? "multipart" : "plain",
    fields: sent.flatMap(([name, value]) => (typeof value === "string" ? [[name, value] as const] : [])),
    files: [...new Set(sent.flatMap(([name, value]) => (typeof value === "string" ? [] : [name])))],
  };
  return showSignIn(c, { to: pathname, held, status: 401 });
}

/** Nothing where there is more. */
async function readUpTo(body: ReadableStream<Uint8Array> | null, most: number): Promise<Uint8Array<ArrayBuffer> | undefined> {
  const read = new Uint8Array(most);
  let length = 0;
  for await (const part of body ?? []) {
    if (length + part.length > most) return undefined;
    read.set(part, length);
    length += part.length;
  }
  return read.slice(0, length);
}

const text = z.string().max(KEPT_BYTES);
const heldForm = z.strictObject({
  path: z.string().max(2000),
  kind: z.enum(["plain", "multipart"]),
  fields: z.array(z.tuple([text, text])).max(KEPT_FIELDS),
  files: z.array(text).max(50),
});

/** A held form as it came back. Its path is one of this site. */
export function heldIn(sent: string | null | undefined): HeldForm | undefined {
  if (!sent) return undefined;
  try {
    const read = heldForm.safeParse(JSON.parse(sent));
    return read.success ? { ...read.data, path: ownPath(read.data.path) } : undefined;
  } catch {
    return undefined;
  }
}

/** Pages whose form comes back filled by one of its own buttons. */
const REOPENS = /^\/estimates\/[^/.]+$/;

/** Whoever is in now has to send it. */
export const offerHeld = (c: Context<AppEnv>, held: HeldForm, name: string | undefined) =>
  bareAnswer(c, <SendAgain look={lookOf(c)} held={held} name={name} reopens={REOPENS.test(held.path)} />);

/** A path of this site and nothing else: never another host, also when the dots in it are resolved ('/..//other.example'). */
export function ownPath(to: unknown): string {
  if (typeof to !== "string" || !to.startsWith("/") || !URL.canParse(to, HERE)) return "/";
  const { origin, pathname, search } = new URL(to, HERE);
  return origin === HERE && !pathname.startsWith("//") ? pathname + search : "/";
}

const HERE = "http://here.invalid";
