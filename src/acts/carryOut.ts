/**
 * An act carried out: decided on what stands, then written in one transaction with the events that tell of it and with its reply under
 * the Idempotency-Key. If anything it rests on was written meanwhile the transaction fails as a whole, and it is decided again.
 */
import type { z } from "zod";
import { isRefused, isTaken } from "../records/constraint.js";
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

/**
 * A key that was taken means that another write came through, so this many must have done so in a row. What else the database refuses
 * may be no conflict at all, and would be refused for ever.
 */
const TRIES = 100;
const TRIES_OTHERWISE = 12;

export async function carryOut<F extends z.ZodObject, A, On>(
  act: Act<F, A, On>,
  desk: Desk,
  value: z.output<F>,
  on: On,
  once?: Repeatable<A>,
): Promise<Outcome<A>> {
  /** Undefined: another write came through. */
  const attempted = async (attempt: number): Promise<Outcome<A> | undefined> => {
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
      if (!isRefused(error) || attempt >= (isTaken(error) ? TRIES : TRIES_OTHERWISE)) throw error;
      return undefined;
    }
  };

  let outcome = await attempted(1);
  for (let attempt = 2; !outcome; attempt += 1) {
    outcome = await inTurn(desk.db, () => attempted(attempt));
    if (!outcome) await apart(attempt);
  }
  return outcome;
}

/**
 * Those of one process that met try again one after another: fifty at once would else decide a thousand times, and each keep the others
 * from it. Nobody waits longer than this for those before.
 */
const TURN = 5000;
const lastOf = new WeakMap<object, Promise<unknown>>();

function inTurn<T>(db: object, attempt: () => Promise<T>): Promise<T> {
  const before = lastOf.get(db) ?? Promise.resolve();
  const mine = Promise.race([before, pause(TURN)]).then(attempt);
  lastOf.set(
    db,
    mine.catch(() => undefined),
  );
  return mine;
}

const pause = (milliseconds: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, milliseconds));

/** Those who met others than of this process go on at different moments, further apart the more often they meet: in milliseconds. */
const [SOON, LATEST] = [8, 1000];
const apart = (attempt: number): Promise<void> => pause(Math.random() * Math.min(LATEST, SOON * 2 ** attempt));
