/**
 * Unguessable addresses of an owner's page. A link opens its job's issued revisions until it expires or is withdrawn. Its secret and
 * the code printed beside it are kept as SHA-256 only; both are told once, when the link is made.
 */
import { eq } from "drizzle-orm";
import { index, sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import type { Database, Instant } from "./database.js";
import { estimatesTable } from "./estimates.js";
import { jobsTable, numbered } from "./jobs.js";
import { asWritten, type KeptOnce, onceColumns } from "./keptOnce.js";
import { codeHashOf, type LinkRow } from "./newLink.js";
import { withoutNulls } from "./noun.js";
import { sha256 } from "./sha256.js";
import type { Write } from "./trail.js";

export const ownerLinksTable = sqliteTable(
  "owner_links",
  {
    ...onceColumns(),
    estimateId: text("estimate_id")
      .notNull()
      .references(() => estimatesTable.id),
    by: text("made_by").notNull(),
    /** Where it goes: an e-mail address, a telephone number, 'on paper'. */
    deliveredTo: text("delivered_to").notNull(),
    expiresAt: text("expires_at").notNull(),
    secretHash: text("secret_hash").notNull(),
    codeSalt: text("code_salt").notNull(),
    codeHash: text("code_hash").notNull(),
  },
  (table) => [index("owner_links_job").on(table.jobId)],
);

export const withdrawalsTable = sqliteTable(
  "link_withdrawals",
  {
    ...onceColumns(),
    linkId: text("link_id")
      .notNull()
      .references(() => ownerLinksTable.id),
    by: text("withdrawn_by").notNull(),
    reason: text("reason"),
  },
  (table) => [uniqueIndex("link_withdrawals_link").on(table.linkId)],
);

export interface OwnerLink extends KeptOnce {
  readonly estimateId: string;
  readonly by: string;
  readonly deliveredTo: string;
  readonly expiresAt: Instant;
  readonly withdrawal?: Withdrawal;
}

export interface Withdrawal extends KeptOnce {
  readonly linkId: string;
  readonly by: string;
  readonly reason?: string;
}

/** The link without what proves it, so that nothing of that can leak into an answer or a log. */
export const linkFrom = ({ secretHash: _, codeSalt: __, codeHash: ___, ...row }: LinkRow, withdrawal: unknown): OwnerLink => ({
  ...row,
  ...(withdrawal ? { withdrawal: withoutNulls<Withdrawal>(withdrawal) } : {}),
});

const joined = (db: Database) =>
  db
    .select({ row: ownerLinksTable, withdrawal: withdrawalsTable })
    .from(ownerLinksTable)
    .leftJoin(withdrawalsTable, eq(withdrawalsTable.linkId, ownerLinksTable.id));

async function find(db: Database, id: string): Promise<OwnerLink | undefined> {
  const [found] = await joined(db).where(eq(ownerLinksTable.id, id));
  return found && linkFrom(found.row, found.withdrawal);
}

export const ownerLinks = {
  find,

  /** Oldest first. */
  ofJob: async (db: Database, jobId: string): Promise<OwnerLink[]> => {
    const found = await joined(db).where(eq(ownerLinksTable.jobId, jobId)).orderBy(asWritten(ownerLinksTable));
    return found.map(({ row, withdrawal }) => linkFrom(row, withdrawal));
  },

  /** The link a fragment opens, dead or alive. */
  byFragment: async (db: Database, fragment: string): Promise<OwnerLink | undefined> => {
    const [id = "", secret = ""] = fragment.split(".");
    const [found] = await joined(db).where(eq(ownerLinksTable.id, id));
    return found && found.row.secretHash === (await sha256(secret)) ? linkFrom(found.row, found.withdrawal) : undefined;
  },

  /** The link, dead or alive, of the job of this number that a code opens. A number that is not there takes the same look-up. */
  byCode: async (db: Database, number: string, code: string): Promise<OwnerLink | undefined> => {
    const that = numbered(number);
    const found = that ? await joined(db).innerJoin(jobsTable, eq(jobsTable.id, ownerLinksTable.jobId)).where(that) : [];
    for (const { row, withdrawal } of found)
      if (row.codeHash === (await codeHashOf(code, row.codeSalt))) return linkFrom(row, withdrawal);
    return undefined;
  },
};

export const addLink = (db: Database, row: LinkRow): Write => db.insert(ownerLinksTable).values(row);
export const addLinkWithdrawal = (db: Database, row: Withdrawal): Write => db.insert(withdrawalsTable).values(row);

/** Why a link opens nothing any more. */
export function deadSince({ withdrawal, expiresAt }: OwnerLink, now: Instant) {
  if (withdrawal) return { why: "withdrawn", since: withdrawal.at } as const;
  return expiresAt <= now ? ({ why: "expired", since: expiresAt } as const) : undefined;
}
