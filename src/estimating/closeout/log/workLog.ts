/**
 * What a job really took: time and parts, each entry on a piece of its work. Plain data; `checkLog` says what is wrong with it.
 * Units: minutes to three decimals; money = integer minor units; moments = ISO 8601 date, time and zone.
 */
import type { EstimateInput, Minor, Minutes, WorkItem } from "../../input.js";
import { OFFER_STATES } from "../../lists.js";
import { isReserved } from "../../resolve.js";

/** ISO 8601 with a zone: 2026-11-25T09:30+00:00 or 2026-11-25T09:30:15Z. */
export type Moment = string;

export type Work =
  | { readonly is: "item"; readonly id: string }
  /** Opening and refitting. Without an assembly it was not told apart, and is shared over all that was opened. */
  | { readonly is: "access"; readonly assembly?: string }
  /** Pulling parts from a donor unit. */
  | { readonly is: "pull"; readonly offer: string };

/** Why, and who decided, where a refusal was overridden. */
export interface Override {
  readonly reason: string;
  readonly by: string;
}

interface TimeOn {
  readonly id: string;
  readonly work: Work;
  readonly person: string;
  /** Worked at, where it is not the class of the operation, or of access. */
  readonly labourClass?: string;
  readonly note?: string;
  readonly override?: Override;
}

/** A timer; it runs while it has no end. */
interface TimedEntry extends TimeOn {
  readonly startedAt: Moment;
  readonly endedAt?: Moment;
}

interface EnteredEntry extends TimeOn {
  readonly minutes: Minutes;
}

export type TimeEntry = TimedEntry | EnteredEntry;

export const PART_STATES = [...OFFER_STATES, "reconditioned"] as const;
export type PartState = (typeof PART_STATES)[number];

/** Of the rate book, of the catalogue, or in the shop's own words. */
export type PartNamed = { readonly type: string } | { readonly kind: string } | { readonly own: string };

export interface PartUsed {
  readonly id: string;
  /** The work item that used it up. */
  readonly item: string;
  readonly part: PartNamed;
  /** Pieces used up, bad ones included. */
  readonly count: number;
  /** What was paid for `per` pieces, as the offers' prices are. */
  readonly paid: { readonly price: Minor; readonly per: number };
  readonly state: PartState;
  /** Fitted in place of the part the item was agreed with, and reckoned against it. */
  readonly insteadOf?: true;
  readonly note?: string;
  readonly override?: Override;
}

export interface WorkLog {
  /** Work that no revision has, in the shop's own words: what entries were made for beside the list. */
  readonly own?: readonly WorkItem[];
  readonly time: readonly TimeEntry[];
  readonly parts: readonly PartUsed[];
}

/** Opening or refitting it is in the log. */
export const tellsOpening = ({ time }: Pick<WorkLog, "time">): boolean => time.some(({ work }) => work.is === "access");

/** The input with what only the current revision has, so that everything in the log has a name. Nothing of it is priced. */
export function withNames(input: EstimateInput, current: EstimateInput = input): EstimateInput {
  if (current === input) return input;
  const joined = <T extends { readonly id: string }>(own: readonly T[] = [], more: readonly T[] = []): T[] => {
    const ids = new Set(own.map(({ id }) => id));
    return [...own, ...more.filter(({ id }) => !ids.has(id))];
  };
  // Own words of the current revision, or of the log, are entries of its book alone.
  const own = <T extends { readonly id: string }>(rows: readonly T[]): T[] => rows.filter(({ id }) => isReserved(id));
  const { operations, partTypes } = input.rateBook;
  return {
    ...input,
    rateBook: {
      ...input.rateBook,
      operations: joined(operations, own(current.rateBook.operations)),
      partTypes: joined(partTypes, own(current.rateBook.partTypes)),
    },
    items: joined(input.items, current.items),
    kinds: joined(input.kinds, current.kinds),
    offers: joined(input.offers, current.offers),
    map: { ...input.map, assemblies: joined(input.map?.assemblies, current.map?.assemblies) },
  };
}
