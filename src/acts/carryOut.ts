/**
 * An act carried out: decided on what stands, then written in one transaction with the events that tell of it and with its reply under
 * the Idempotency-Key. If anything it rests on was written meanwhile the transaction fails as a whole, and it is decided again.
 */
import type { z } from "zod";
import { isRefused } from "../records/constraint.js";
import { findReply, keepReply, type Once, type StoredReply } from "../records/replies.js";
import { chained, type Write } from "../records/trail.js";
import type { Act, Desk, Refusal } from "./act.js";
import { jobsRead } from "./job.js";

export type Outcome<A> =
  | { readonly ok: true; readonly answer: A }
  /** The same request came before; this was its reply. */
  | { readonly ok: true; readonly replayed: StoredReply }
  | { readonly ok: false; readonly refusal: Refusal };

/** The request's key, and what it is answered with: kept in the act's own transaction. */
export interface Repeatable<A> extends Once {
  readonly reply: (answer: A) => StoredReply;
}

/** Each conflict means that another write came through, so this many must have done so in a row. */
const TRIES = 100;

export async function carryOut<F extends z.ZodObject, A, On>(
  act: Act<F, A, On>,
  desk: Desk,
  value: z.output<F>,
  on: On,
  once?: Repeatable<A>,
): Promise<Outcome<A>> {
  for (let attempt = 1; ; attempt += 1) {
    const before = once && (await findReply(desk.db, once, desk.now));
    if (before?.is === "other body") return { ok: false, refusal: { is: "idempotency key reused" } };
    if (before) return { ok: true, replayed: before.reply };
    const decided = await act.decide(attempt === 1 ? desk : { ...desk, job: jobsRead(desk.db), before: desk.job }, value, on);
    if ("refused" in decided) return { ok: false, refusal: decided.refused };
    const { answer, writes = [], trail } = decided;
    const events = trail ? await chained(desk.db, trail.events, trail.job, desk.at, trail.head) : [];
    const reply = once ? keepReply(desk.db, once, once.reply(answer), desk.now) : [];
    const [first, ...rest]: Write[] = [...writes, ...events, ...reply];
    if (!first) return { ok: true, answer };
    try {
      await desk.db.batch([first, ...rest]);
      return { ok: true, answer };
    } catch (error) {
      if (!isRefused(error) || attempt >= TRIES) throw error;
    }
    await apart(attempt);
  }
}

/** Those who met go on at different moments, further apart the more often they meet: in milliseconds. */
const [SOON, LATEST] = [8, 1000];
const apart = (attempt: number): Promise<void> =>
  new Promise((resolve) => setTimeout(resolve, Math.random() * Math.min(LATEST, SOON * 2 ** attempt)));
