/** The shop's send hook: where its own program takes messages to owners from, switched off without an address, and tried out. */
import { z } from "zod";
import type { Kept } from "../records/columns.js";
import { type SendAttempt, type SendHook, sendAttempts, sendHook } from "../records/sendHook.js";
import { act, wrongField } from "./act.js";
import { line, maybe, tick } from "./field.js";
import { heldBack, type Seen } from "./record.js";

export const attempt = z
  .strictObject({
    id: z.string(),
    at: z.string().meta({ format: "date-time" }),
    jobId: maybe(z.string()).meta({ description: "Absent: a test" }),
    status: maybe(z.int()).meta({ description: "HTTP status of the answer, where there was one" }),
    failure: maybe(z.string()),
  })
  .meta({ id: "SendAttempt", description: "A call to the shop's program; it holds no address and no text" });

const kept = z
  .strictObject({
    url: maybe(z.string()).meta({ description: "Absent: nothing is sent" }),
    version: z.int(),
    secret: maybe(z.string()).meta({ description: "Told once, when it is made: the program checks each call with it" }),
  })
  .meta({ id: "SendHook" });

/** Before there is one. */
export const NO_HOOK: Kept = { id: sendHook.id, version: 0, createdAt: "", updatedAt: "" };

export const changeHook = act({
  name: "replaceSendHook",
  title: "Set the send hook, or switch it off",
  fields: z
    .strictObject({
      url: maybe(
        line("Address of your program", { most: 2000, hint: "It begins with https://. Empty: nothing is sent." }).meta({
          example: "https://shop.example/send",
        }),
      ),
      renew: maybe(tick("Make a new secret; the old one ends at once")),
    })
    .meta({ id: "SendHookValue" }),
  answer: kept,
  decide: async ({ db, at }, { url, renew }, { seen }: { readonly seen: Seen | undefined }) => {
    const fault = url === undefined ? undefined : addressFault(url);
    if (fault) return wrongField("/url", "shape unknown", fault);
    const old = await sendHook.find(db);
    const held = heldBack("send hook", old ?? NO_HOOK, seen);
    if (held) return { refused: withoutSecret(held) };
    const secret = old && !renew ? old.secret : newSecret();
    const hook: SendHook = { ...(url !== undefined && { url }), secret };
    const { record, write } = old ? sendHook.changed(db, old, { url: undefined, ...hook }, at) : sendHook.made(db, hook, at);
    const told = secret === old?.secret ? {} : { secret };
    return { answer: { ...(url !== undefined && { url }), version: record.version, ...told }, writes: [write] };
  },
});

const withoutSecret = ({ current, ...refusal }: Exclude<ReturnType<typeof heldBack>, undefined>) => {
  const { url, version } = (current ?? {}) as Partial<SendHook & Kept>;
  return { ...refusal, ...(version !== undefined && { current: { ...(url !== undefined && { url }), version } }) };
};

const sentAs = z.strictObject({
  is: z.enum(["sent", "off", "failed"]),
  why: maybe(z.string()).meta({ example: "it answered 503" }),
});

export type Sent = { readonly is: "sent" } | { readonly is: "off" } | { readonly is: "failed"; readonly why: string };
export interface Delivered {
  readonly sent: Sent;
  /** Absent: switched off. */
  readonly attempt?: SendAttempt;
}

/** `deliver` sends, and so is asked once however often this is decided. */
export const testHook = act({
  name: "testSendHook",
  title: "Send a test to the shop's program",
  fields: z.strictObject({}),
  answer: sentAs,
  decide: async ({ db }, _, { deliver }: { readonly deliver: () => Promise<Delivered> }) => {
    const { sent, attempt: made } = await deliver();
    return { answer: sent, writes: made ? [sendAttempts.adding(db, made)] : [] };
  },
});

/** 32 random bytes, as Standard Webhooks writes them. */
const newSecret = (): string => `whsec_${btoa(String.fromCharCode(...crypto.getRandomValues(new Uint8Array(32))))}`;

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
