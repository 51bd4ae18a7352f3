/** What the shop calls with its send hook, and what it does not call. */
import type { Variables } from "../bindings.js";
import { isInside } from "./inside.js";

/** Answers the status. An answer that points elsewhere is not followed: the message would go where the shop never said. */
export type CallOut = (
  url: string,
  sent: { readonly headers: Readonly<Record<string, string>>; readonly body: string; readonly signal: AbortSignal },
  /** Whether an address that the name leads to may be called. */
  mayCall: (address: string) => boolean,
) => Promise<number>;

/** The name leads to this machine or the network behind it. */
export class Inside extends Error {}

/**
 * Where names cannot be asked about beforehand, as on the edge. What is called there is reached from the platform's own network, which the
 * shop's is not part of.
 */
export const byFetch: CallOut = async (url, sent) => {
  const answer = await fetch(url, { method: "POST", ...sent, redirect: "manual" });
  await answer.body?.cancel();
  return answer.status;
};

const SECONDS = 5;
const INSIDE =
  "it stands on this machine or the network behind it, which whoever runs the shop has to allow (OHMWRIGHT_HOOK_HOSTS)";

/** `named`: hosts that may be called wherever they stand. */
export async function calledOut(
  over: CallOut,
  named: readonly string[],
  url: string,
  headers: Readonly<Record<string, string>>,
  body: string,
): ReturnType<Variables["callHook"]> {
  const { hostname, host } = new URL(url);
  const free = named.includes(hostname) || named.includes(host);
  if (!free && isInside(hostname)) return { why: INSIDE };
  const signal = AbortSignal.timeout(SECONDS * 1000);
  try {
    const status = await over(url, { headers, body, signal }, (address) => free || !isInside(address));
    if (status >= 200 && status < 300) return { status };
    return { ...(status > 0 && { status }), why: `it answered ${status || "with a redirect"}` };
  } catch (error) {
    if (error instanceof Inside) return { why: INSIDE };
    if (signal.aborted) return { why: `it did not answer within ${SECONDS} seconds` };
    const lost = error instanceof Error && "syscall" in error && error.syscall === "getaddrinfo";
    return { why: lost ? "its name cannot be looked up" : "it cannot be reached" };
  }
}
