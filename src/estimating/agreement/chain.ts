/**
 * A job's events in a chain: each hash is taken over the event and the hash before it, so that no event can be changed, removed,
 * put in or moved to another job without all later hashes changing too. Cutting off the end shows against a head kept elsewhere,
 * such as the one printed on a document. The hash function is passed in; nothing here computes one.
 */
import { canonical } from "./canonical.js";

export interface ChainEvent {
  readonly job: string;
  /** 1, 2, 3 ... within the job. */
  readonly number: number;
  /** UTC, ISO 8601. */
  readonly at: string;
  /** What happened. */
  readonly is: string;
  /** A JSON value: who, what, and the hashes of what it is about. */
  readonly content: unknown;
}

export interface ChainedEvent extends ChainEvent {
  readonly hash: string;
}

export interface ChainHead {
  readonly number: number;
  readonly hash: string;
}

export type Hash = (text: string) => Promise<string>;

/** What the first event of a job builds on. */
export const CHAIN_START = "";

/** The text that is hashed. Anything else an event object carries, such as its hash or a row id, is left out. */
export const chainText = ({ job, number, at, is, content }: ChainEvent, previousHash: string): string =>
  canonical({ chain: 1, job, number, at, is, content, previous: previousHash });

export type ChainFault =
  | { readonly is: "number"; readonly number: number; readonly expected: number }
  | { readonly is: "job"; readonly number: number; readonly job: string; readonly expected: string }
  | { readonly is: "hash"; readonly number: number; readonly hash: string; readonly expected: string }
  /** A head that was given out is not in the chain: events were cut off or rewritten. */
  | { readonly is: "head"; readonly number: number; readonly hash: string; readonly found?: string };

type ChainResult = { readonly ok: true; readonly head: ChainHead } | { readonly ok: false; readonly fault: ChainFault };

/**
 * One job's events in order, and any heads given out before. `erased`: by number, the hash of the content that was left where a later
 * event of this very chain tells that some was erased; such an event keeps the hash it had. Names the first thing that does not match.
 */
export async function verifyChain(
  events: readonly ChainedEvent[],
  hash: Hash,
  heads: readonly ChainHead[] = [],
  erased: ReadonlyMap<number, string> = new Map(),
): Promise<ChainResult> {
  let previous = CHAIN_START;
  const job = events[0]?.job ?? "";
  for (const [at, event] of events.entries()) {
    const { number } = event;
    const left = erased.get(number);
    const whole = left === undefined || (await hash(canonical(event.content))) !== left;
    const expected = whole ? await hash(chainText(event, previous)) : event.hash;
    const fault: ChainFault | undefined =
      number !== at + 1
        ? { is: "number", number, expected: at + 1 }
        : event.job !== job
          ? { is: "job", number, job: event.job, expected: job }
          : event.hash !== expected
            ? { is: "hash", number, hash: event.hash, expected }
            : undefined;
    if (fault) return { ok: false, fault };
    previous = expected;
  }
  for (const head of [...heads].sort((a, b) => a.number - b.number)) {
    const found = head.number === 0 ? CHAIN_START : events[head.number - 1]?.hash;
    if (found !== head.hash) return { ok: false, fault: { is: "head", ...head, ...(found !== undefined && { found }) } };
  }
  return { ok: true, head: { number: events.length, hash: previous } };
}
