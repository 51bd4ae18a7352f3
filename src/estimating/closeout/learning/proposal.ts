/** Proposals to change a rate book, each with what it rests on. Accepting some makes the next version; older versions and estimates stay. */
import { tokensOf } from "../../check/spot.js";
import type { IsoDate, Provenance, RateBook, ThreePoint } from "../../input.js";
import type { Standard } from "./standard.js";

export type Change =
  /** `pointer` into the rate book. Minutes. */
  | { readonly pointer: string; readonly was: ThreePoint; readonly proposed: ThreePoint }
  /** Percent, or a share. */
  | { readonly pointer: string; readonly was: number; readonly proposed: number };

/** Minutes taken in units of the book's likely minutes, the unit's condition included; Student's t on the log scale. */
export interface Taken {
  readonly p10: number;
  readonly p50: number;
  readonly p80: number;
  readonly p90: number;
}

export interface Proposal {
  readonly id: string;
  readonly standard: Standard;
  readonly changes: readonly Change[];
  /** Pieces of work, or pieces tested, that speak for it. */
  readonly observations: number;
  /** 0 when it does not rest on jobs. */
  readonly jobs: number;
  /** 0 to 1: how far the observations outweigh the book in the mean. */
  readonly weight: number;
  readonly taken?: Taken;
  /**
   * The job that moves it most, and what would change of the book without it; absent where it rests on no jobs, or on one. `leftOut`: it
   * is far from all others and would move the likely time away from what it took, so what is proposed rests on the others alone.
   */
  readonly most?: { readonly job: string; readonly changes: readonly Change[]; readonly leftOut?: true };
}

/** Ids that are not among the proposals change nothing. `note` says where the new figures come from. The proposals must be of this version. */
export function acceptProposals(
  rateBook: RateBook,
  proposals: readonly Proposal[],
  accepted: Iterable<string>,
  inForceFrom: IsoDate,
  note?: (proposal: Proposal) => string,
): RateBook {
  const wanted = new Set(accepted);
  const taken = proposals.filter(({ id }) => wanted.has(id));
  const next = taken.reduce((book, proposal) => {
    const source: Provenance = { basis: "measured here", ...(note && { note: note(proposal) }) };
    const changed = proposal.changes.reduce((all, { pointer, proposed }) => put(all, tokensOf(pointer), proposed), book);
    const places = new Set(proposal.changes.map(({ pointer }) => placeOfSource(pointer)));
    return [...places].reduce((all, place) => put(all, [...tokensOf(place), "source"], source), changed);
  }, rateBook);
  return { ...next, version: rateBook.version + 1, inForceFrom };
}

/** The entry of a list, or a section that has one source for all of it. */
function placeOfSource(pointer: string): string {
  const [section = "", entry = ""] = tokensOf(pointer);
  return section === "leads" || section === "scarcity" ? `/${section}` : `/${section}/${entry}`;
}

/** A copy with one value changed; what it does not touch is shared. */
function put<T>(whole: T, [token, ...rest]: readonly string[], value: unknown): T {
  if (token === undefined) return value as T;
  if (Array.isArray(whole)) return whole.map((entry, at) => (String(at) === token ? put(entry, rest, value) : entry)) as T;
  const record = whole as Record<string, unknown>;
  return { ...record, [token]: put(record[token], rest, value) } as T;
}
