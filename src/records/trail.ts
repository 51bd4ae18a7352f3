/**
 * The append-only events of each job. What changes a job's records goes in one batch with the event that tells of it, numbered after
 * the head that was read before deciding: if anything else of the job was written meanwhile the batch fails as a whole, and it is
 * decided again on what stands then. So writes to one job come one after the other, without a transaction that waits.
 */
import { asc, desc, eq } from "drizzle-orm";
import type { BatchItem } from "drizzle-orm/batch";
import { integer, primaryKey, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { CHAIN_START, type ChainEvent, type ChainedEvent, type ChainHead, chainText } from "../estimating/agreement/chain.js";
import { isRefused } from "./constraint.js";
import type { Database, Instant } from "./database.js";
import { jobsTable } from "./jobs.js";
import { sha256 } from "./sha256.js";

export const eventsTable = sqliteTable(
  "events",
  {
    job: text("job_id")
      .notNull()
      .references(() => jobsTable.id),
    number: integer("number").notNull(),
    at: text("at").notNull(),
    is: text("what").$type<EventName>().notNull(),
    content: text("content", { mode: "json" }).notNull(),
    hash: text("hash").notNull(),
  },
  (table) => [primaryKey({ columns: [table.job, table.number] })],
);

export type EventName =
  | "draft begun"
  | "draft withdrawn"
  | "issued"
  | "link made"
  | "link withdrawn"
  | "question asked"
  | "question answered"
  | "answered"
  | "answer corrected"
  | "work logged"
  | "entry withdrawn"
  | "ticked off"
  | "reading taken"
  | "payment recorded"
  | "payment withdrawn"
  | "photo added"
  | "photo removed"
  | "limit overridden"
  | "begun unpaid"
  | "closed out"
  | "close-out corrected"
  | "personal data erased";

/** What changes the work log. */
export const ON_THE_LOG: readonly EventName[] = ["work logged", "entry withdrawn"];

/** A statement that waits to be carried out with others. */
export type Write = BatchItem<"sqlite">;

export interface NewEvent {
  readonly is: EventName;
  readonly content: object;
}

/** Nothing to write, or what goes together; `answer` is what the caller hears. */
export type Decided<T> =
  | { readonly answer: T }
  | { readonly answer: T; readonly writes: readonly BatchItem<"sqlite">[]; readonly events: readonly NewEvent[] };

/** Each conflict means that another write of the same job came through, so this many must have done so in a row. */
const TRIES = 20;

/** `decide` may run several times and must not write itself; `attempt` counts from 0. */
export async function recorded<T>(
  db: Database,
  job: string,
  at: Instant,
  decide: (head: ChainHead, attempt: number) => Promise<Decided<T>>,
): Promise<T> {
  for (let attempt = 0; ; attempt += 1) {
    const head = await headOf(db, job);
    const decided = await decide(head, attempt);
    if (!("writes" in decided)) return decided.answer;
    const [first, ...rest] = [...decided.writes, ...(await chained(db, decided.events, job, at, head))];
    try {
      await db.batch([first!, ...rest]);
      return decided.answer;
    } catch (error) {
      if (!isRefused(error) || attempt + 1 >= TRIES) throw error;
    }
  }
}

/** The events as they follow the head; fails in the batch where anything else followed it meanwhile. */
export async function chained(
  db: Database,
  events: readonly NewEvent[],
  job: string,
  at: Instant,
  head: ChainHead,
): Promise<readonly Write[]> {
  const made: (typeof eventsTable.$inferInsert)[] = [];
  let { number, hash } = head;
  for (const { is, content } of events) {
    number += 1;
    hash = await sha256(chainText({ job, number, at, is, content }, hash));
    made.push({ job, number, at, is, content, hash });
  }
  return made.length > 0 ? [db.insert(eventsTable).values(made)] : [];
}

export async function headOf(db: Database, job: string): Promise<ChainHead> {
  const [last] = await db
    .select({ number: eventsTable.number, hash: eventsTable.hash })
    .from(eventsTable)
    .where(eq(eventsTable.job, job))
    .orderBy(desc(eventsTable.number))
    .limit(1);
  return last ?? { number: 0, hash: CHAIN_START };
}

export type JobEvent = ChainedEvent & ChainEvent & { readonly is: EventName };

/** In order. */
export const eventsOf = (db: Database, job: string): Promise<JobEvent[]> =>
  db.select().from(eventsTable).where(eq(eventsTable.job, job)).orderBy(asc(eventsTable.number));

/** As printed on paper: number of the event, and the first 64 bits of its hash. */
export const shortHead = ({ number, hash }: ChainHead): string => `${number}-${hash.slice(0, 16) || "0"}`;
