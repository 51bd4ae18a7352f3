/**
 * Gives a message for an owner to the shop's own program. It is tried once: the link in it is kept nowhere, so what failed cannot be
 * sent again later, and whoever pressed the button is told at once.
 */
import type { Context } from "hono";
import { uuidv7 } from "uuidv7";
import { sendAttempts, sendHook } from "../../records/sendHook.js";
import type { OwnerMail } from "../../wording/sending.js";
import type { AppEnv } from "../bindings.js";
import { signature } from "./signature.js";

export interface Message extends OwnerMail {
  readonly type: "estimate" | "test";
  /** Address of the owner's page, with its secret. */
  readonly link?: string;
  readonly job?: { readonly id: string; readonly number: string; readonly revision: number };
}

export type Sent =
  | { readonly is: "sent" }
  | { readonly is: "off" }
  /** `why` is for a person: 'it answered 503', 'it did not answer within 5 seconds'. */
  | { readonly is: "failed"; readonly why: string };

const SECONDS = 5;

export async function send(c: Context<AppEnv>, { type, job, ...message }: Message): Promise<Sent> {
  const hook = await sendHook.find(c.var.db);
  if (!hook?.url) return { is: "off" };
  const at = c.var.clock();
  const id = uuidv7();
  const body = JSON.stringify({ type, timestamp: at.toISOString(), data: { ...message, ...(job && { job }) } });
  const seconds = Math.floor(at.getTime() / 1000);
  const sent = await call(
    hook.url,
    {
      "content-type": "application/json",
      "webhook-id": id,
      "webhook-timestamp": String(seconds),
      "webhook-signature": await signature(hook.secret, id, seconds, body),
    },
    body,
  );
  const jobId = job && { jobId: job.id };
  const failure = sent.why && { failure: sent.why };
  await sendAttempts.add(c.var.db, {
    id,
    at: at.toISOString(),
    ...jobId,
    ...(sent.status && { status: sent.status }),
    ...failure,
  });
  return sent.why ? { is: "failed", why: sent.why } : { is: "sent" };
}

async function call(url: string, headers: Record<string, string>, body: string): Promise<{ status?: number; why?: string }> {
  try {
    // An answer that points elsewhere is not followed: the message would go where the shop never said.
    const answer = await fetch(url, {
      method: "POST",
      headers,
      body,
      redirect: "manual",
      signal: AbortSignal.timeout(SECONDS * 1000),
    });
    await answer.body?.cancel();
    const { status } = answer;
    return answer.ok ? { status } : { ...(status > 0 && { status }), why: `it answered ${status || "with a redirect"}` };
  } catch (error) {
    const late = error instanceof Error && error.name === "TimeoutError";
    return { why: late ? `it did not answer within ${SECONDS} seconds` : "it cannot be reached" };
  }
}

/** What is wrong with an address to send to, or nothing. Plain http only to this machine. */
export function addressFault(typed: string): string | undefined {
  if (!URL.canParse(typed)) return "Give the whole address, such as https://shop.example/send.";
  const { protocol, hostname, username, password, hash } = new URL(typed);
  const here = hostname === "localhost" || hostname === "127.0.0.1" || hostname === "[::1]";
  if (protocol !== "https:" && !(protocol === "http:" && here))
    return "It must begin with https://, or with http:// on this machine.";
  if (username || password) return "Leave name and password out: each call is signed instead.";
  return hash ? "Leave out what stands behind the #: it is never sent." : undefined;
}
