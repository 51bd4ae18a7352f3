/** What an erasure says of itself in a job's chain: how that which it changed reads now, so that nothing else can pass for erased. */
import type { Telling } from "../../records/keptOnce.js";
import type { JobEvent } from "../../records/trail.js";

export interface Erasure {
  readonly by: string;
  /** Rows that were told of before, as they read now. */
  readonly records: readonly Telling[];
  /** Events before this one whose content was changed, with the hash of what it is now. Their own hashes stay. */
  readonly events: readonly { readonly number: number; readonly hash: string }[];
  /** Issued revisions: the hash of what is left. The PDF is gone; its hash and the first content hash stay on record. */
  readonly revisions: readonly { readonly revision: number; readonly contentHash: string }[];
  /** Ids of close-outs, likewise. */
  readonly closeOuts: readonly { readonly id: string; readonly contentHash: string }[];
}

export interface Erased {
  /** When the last of them was. */
  readonly on: string;
  readonly records: ReadonlyMap<string, Telling>;
  readonly events: ReadonlyMap<number, string>;
  readonly revisions: ReadonlyMap<number, string>;
  readonly closeOuts: ReadonlyMap<string, string>;
}

export const ERASED_EVENT = "personal data erased";
export const rowKey = (row: { readonly in: string; readonly id: string }): string => `${row.in} ${row.id}`;

/** Everything that was erased of a job; undefined where nothing was. A later erasure speaks after an earlier one. */
export function erasedIn(events: readonly JobEvent[]): Erased | undefined {
  const erasures = events.filter(({ is }) => is === ERASED_EVENT);
  const last = erasures.at(-1);
  if (!last) return undefined;
  const all = erasures.map(({ number, content }) => ({ number, content: content as Erasure }));
  return {
    on: last.at,
    records: new Map(all.flatMap(({ content }) => content.records.map((row) => [rowKey(row), row] as const))),
    // An event after the erasure was never part of it.
    events: new Map(
      all.flatMap(({ number, content }) =>
        content.events.filter((event) => event.number < number).map((event) => [event.number, event.hash] as const),
      ),
    ),
    revisions: new Map(all.flatMap(({ content }) => content.revisions.map((each) => [each.revision, each.contentHash] as const))),
    closeOuts: new Map(all.flatMap(({ content }) => content.closeOuts.map((each) => [each.id, each.contentHash] as const))),
  };
}
