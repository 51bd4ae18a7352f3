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

/** Nothing when what was sent is no form. */
export async function holdForm(c: Context<AppEnv>): Promise<Response | undefined> {
  const type = FORM.exec(c.req.header("content-type") ?? "")?.[1];
  if (c.req.method !== "POST" || type === undefined) return undefined;
  const { pathname, search } = new URL(c.req.url);
  const form = await c.req.formData().catch(() => undefined);
  if (!form) return undefined;
  const sent = [...form].filter(([name]) => !SECRET.has(name));
  const held: HeldForm = {
    path: pathname + search,
    kind: type.toLowerCase() === "multipart/form-data" ? "multipart" : "plain",
    fields: sent.flatMap(([name, value]) => (typeof value === "string" ? [[name, value] as const] : [])),
    files: [...new Set(sent.flatMap(([name, value]) => (typeof value === "string" ? [] : [name])))],
  };
  return showSignIn(c, { to: pathname, held, status: 401 });
}

const text = z.string().max(1_000_000);
const heldForm = z.strictObject({
  path: z.string().max(2000),
  kind: z.enum(["plain", "multipart"]),
  fields: z.array(z.tuple([text, text])).max(20_000),
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
