/** What a shop or an owner does, said once: its fields, what it decides, its refusals. Page, API and CSV open onto it. */
import type { z } from "zod";
import type { ChainHead } from "../estimating/agreement/chain.js";
import type { PricedSet } from "../estimating/agreement/choices.js";
import type { FinalAccount } from "../estimating/closeout/account/finalAccount.js";
import type { Scope } from "../records/apiTokens.js";
import type { Database, Instant } from "../records/database.js";
import type { JobNamed } from "../records/jobRows.js";
import type { PhotoStore } from "../records/photoStore.js";
import type { Role } from "../records/staff.js";
import type { NewEvent, Write } from "../records/trail.js";
import type { Fault } from "./fault.js";
import type { JobAsItStands } from "./job.js";
import type { AnswerName } from "./refusals.js";

/** What prints: documents stand beside acts. */
export interface Papers {
  /** `agreed` has the paperwork it was issued with, and the trail's head as it stands now. */
  readonly finalAccount: (account: FinalAccount, agreed: PricedSet, corrected: boolean) => Promise<Uint8Array>;
}

/** Where an act is done, by whom, and when. */
export interface Desk {
  readonly db: Database;
  readonly now: Date;
  /** The same, as it is written. */
  readonly at: Instant;
  /** Absent where nobody has to sign in, and where the owner acts. */
  readonly staff?: { readonly id: string; readonly name: string; readonly role: Role };
  /** What a token may, where a program acts. */
  readonly scopes?: readonly Scope[];
  readonly photos?: PhotoStore;
  readonly papers: Papers;
  /** As it stands, read once a try: the page that asked may have read it already. */
  readonly job: (named: JobNamed) => Promise<JobAsItStands | undefined>;
  /** The same as it stood when the act was first decided, where this is another try. */
  readonly before?: Desk["job"];
  /** A new id, rising with time. */
  readonly newId: () => string;
}

/** Why not, as a value. What is wrong with a field stands in `errors`, by JSON pointer into the fields. */
export interface Refusal {
  readonly is: AnswerName;
  readonly detail?: string;
  readonly errors?: readonly Fault[];
  /** The record as it stands, where a change met another. */
  readonly current?: unknown;
  readonly headers?: Readonly<Record<string, string>>;
  /** Someone may let it through by name. */
  readonly overridable?: boolean;
}

/** All of `writes` and `events` stand after it, or nothing does. */
export interface Done<A> {
  readonly answer: A;
  readonly writes?: readonly Write[];
  /** Whose trail the events go on, after the head that was read before deciding. */
  readonly trail?: { readonly job: string; readonly head: ChainHead; readonly events: readonly NewEvent[] };
}

export type Decided<A> = Done<A> | { readonly refused: Refusal };

/** `On`: what stands in the address, such as the job. */
export interface Act<F extends z.ZodObject, A, On = Readonly<Record<string, never>>> {
  /** Also the operation's id. */
  readonly name: string;
  /** As a person would say it: page title, button, summary of the operation. */
  readonly title: string;
  readonly fields: F;
  /** What a program gets. */
  readonly answer: z.ZodType;
  /** Reads what stands and decides; writes nothing itself. It may run again when something else was written meanwhile. */
  readonly decide: (desk: Desk, value: z.output<F>, on: On) => Promise<Decided<A>>;
}

/** The act with its types as written. */
export const act = <F extends z.ZodObject, A, On = Readonly<Record<string, never>>>(made: Act<F, A, On>): Act<F, A, On> => made;

export const refused = (is: AnswerName, rest: Omit<Refusal, "is"> = {}): { readonly refused: Refusal } => ({
  refused: { is, ...rest },
});

/** One field is wrong. `name` is of the catalogue of faults. */
export const wrongField = (pointer: string, name: string, detail: string) =>
  refused("input refused", { errors: [{ pointer, name, detail }] });
