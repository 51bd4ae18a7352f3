/**
 * Gives a message for an owner to the shop's own program. It is tried once: the link in it is kept nowhere, so what failed cannot be
 * sent again later, and whoever pressed the button is told at once.
 */
import type { Context } from "hono";
import { uuidv7 } from "uuidv7";
import type { Delivered, Sent } from "../../acts/sendHook.js";
import { sendAttempts, sendHook } from "../../records/sendHook.js";
import { shopSettings } from "../../records/settings.js";
import type { OwnerMail } from "../../wording/sending.js";
import type { AppEnv } from "../bindings.js";

export interface Message extends OwnerMail {
  readonly type: "estimate" | "test";
  /** Address of the owner's page, with its secret. */
  readonly link?: string;
  readonly job?: { readonly id: string; readonly number: string; readonly revision: number };
}

/** Given over, and noted among the calls. */
export async function send(c: Context<AppEnv>, message: Message): Promise<Sent> {
  const { sent, attempt } = await deliver(c, message);
  if (attempt) await c.var.db.batch([sendAttempts.adding(c.var.db, attempt)]);
  return sent;
}

export async function deliver(c: Context<AppEnv>, { type, job, ...message }: Message): Promise<Delivered> {
  const hook = await sendHook.find(c.var.db);
  if (!hook?.url) return { sent: { is: "off" } };
  const at = c.var.clock();
  const id = uuidv7();
  const body = JSON.stringify({ type, timestamp: at.toISOString(), data: { ...message, ...(job && { job }) } });
  const seconds = Math.floor(at.getTime() / 1000);
  const headers = {
    "content-type": "application/json",
    "webhook-id": id,
    "webhook-timestamp": String(seconds),
    "webhook-signature": await signature(hook.secret, id, seconds, body),
  };
  const { status, why } = await c.var.callHook(hook.url, headers, body);
  const told = { ...(job && { jobId: job.id }), ...(status && { status }), ...(why && { failure: why }) };
  return { attempt: { id, at: at.toISOString(), ...told }, sent: why ? { is: "failed", why } : { is: "sent" } };
}

/** A test message, sent once however often it is asked for. */
export function deliverTest(c: Context<AppEnv>): () => Promise<Delivered> {
  let sent: Promise<Delivered> | undefined;
  return () => {
    sent ??= shopSettings(c.var.db).then(({ name }) =>
      deliver(c, {
        ...{ type: "test", to: "", subject: `Test of ${name}` },
        text: `A test of the send hook of ${name}. Nothing is to be done.`,
      }),
    );
    return sent;
  };
}

/** Signs a call as Standard Webhooks 1.0 says: HMAC-SHA256 over 'id.timestamp.body'. */
const PREFIX = "whsec_";

/** `secret`: 'whsec_' and base64; `seconds`: since 1970. */
export async function signature(secret: string, id: string, seconds: number, body: string): Promise<string> {
  const bytes = Uint8Array.from(atob(secret.slice(PREFIX.length)), (letter) => letter.charCodeAt(0));
  const key = await crypto.subtle.importKey("raw", bytes, { name: "HMAC", hash: "SHA-256" }, false, ["sign"]);
  const made = await crypto.subtle.sign("HMAC", key, new TextEncoder().encode(`${id}.${seconds}.${body}`));
  return `v1,${btoa(String.fromCharCode(...new Uint8Array(made)))}`;
}
