/** What one job tells of its owner is erased, with the event that says what the rest reads now. */
import { and, eq, inArray, sql } from "drizzle-orm";
import type { BatchItem } from "drizzle-orm/batch";
import type { AccountTerms } from "../../estimating/closeout/account/terms.js";
import { estimate as compute } from "../../estimating/estimate.js";
import { type CloseOutRecord, closeOuts, closeOutsTable } from "../../records/closeOuts.js";
import { contentHash } from "../../records/contentHash.js";
import type { Database, Instant } from "../../records/database.js";
import { type Estimate, estimateHash, estimates, estimatesTable } from "../../records/estimates.js";
import { issuesTable } from "../../records/issues.js";
import { jobsTable } from "../../records/jobs.js";
import { type Telling, tellingOf } from "../../records/keptOnce.js";
import { RECORD_TABLES, rowsOf } from "../../records/onRecord.js";
import { ownerEntriesTable } from "../../records/ownerEntries.js";
import { ownerLinksTable } from "../../records/ownerLinks.js";
import { chained, eventsOf, eventsTable, headOf } from "../../records/trail.js";
import { ERASED_EVENT, type Erasure } from "./erased.js";
import { ERASED, inputWithout, type Known, leftOf, withoutKnownIn } from "./without.js";

type Writes = BatchItem<"sqlite">[];

/** The update triggers are away while these are carried out. */
export async function erasedJob(db: Database, jobId: string, names: Known, by: string, at: Instant) {
  const head = await headOf(db, jobId);
  const rows = await erasedRows(db, jobId, names);
  const revisions = await erasedRevisions(db, jobId, names, at);
  const closed = await erasedCloseOuts(db, jobId, names, rows.records);
  const events = await erasedEvents(db, jobId, names);
  const content: Erasure = {
    by,
    records: [...rows.records.filter(({ in: table }) => table !== "close_outs"), ...closed.records],
    ...{ events: events.hashes, revisions: revisions.hashes, closeOuts: closed.hashes },
  };
  const links = db.select({ id: ownerLinksTable.id }).from(ownerLinksTable).where(eq(ownerLinksTable.jobId, jobId));
  return {
    writes: [
      ...[...rows.writes, ...revisions.writes, ...closed.writes, ...events.writes, ...jobRow(db, jobId, at)],
      db.delete(ownerEntriesTable).where(inArray(ownerEntriesTable.linkId, links)),
    ],
    told: await chained(db, [{ is: ERASED_EVENT, content }], jobId, at, head),
  };
}

async function erasedRows(db: Database, jobId: string, names: Known) {
  const [writes, records]: [Writes, Telling[]] = [[], []];
  for (const [name, table] of Object.entries(RECORD_TABLES)) {
    for (const row of await rowsOf(db, table, jobId)) {
      const left = leftOf(name, row, names);
      if (Object.keys(left).length === 0) continue;
      writes.push(
        db
          .update(table)
          .set(left as never)
          .where(eq(table.id, row.id)),
      );
      records.push(await tellingOf(name, { ...row, ...left }));
    }
  }
  return { writes, records };
}

/** The sheet is reckoned again from what is left, so that it can be reckoned by whoever checks it. */
async function erasedRevisions(db: Database, jobId: string, names: Known, at: Instant) {
  const writes: Writes = [];
  const hashes: { revision: number; contentHash: string }[] = [];
  for (const estimate of await estimates.ofJob(db, jobId)) {
    const input = inputWithout(await estimates.inputOf(db, estimate), names);
    const outcome = compute(input);
    const sheet = outcome.ok ? outcome.sheet : undefined;
    if (JSON.stringify(sheet?.totals) !== JSON.stringify(estimate.sheet?.totals))
      throw new Error(`Erasing would change the totals of estimate ${estimate.id}.`);
    const hash = await estimateHash(input, sheet);
    const { rateBook: _, ...bare } = input;
    const change = { input: bare, sheet: sheet ?? null, ...(!estimate.issuedAt && draftMoved(estimate, hash, at)) };
    writes.push(db.update(estimatesTable).set(change).where(eq(estimatesTable.id, estimate.id)));
    if (!estimate.issuedAt) continue;
    writes.push(db.update(issuesTable).set({ pdf: new Uint8Array() }).where(eq(issuesTable.id, estimate.id)));
    hashes.push({ revision: estimate.revision, contentHash: hash });
  }
  return { writes, hashes };
}

const draftMoved = ({ version }: Estimate, hash: string, at: Instant) => ({
  contentHash: hash,
  version: version + 1,
  updatedAt: at,
});

async function erasedCloseOuts(db: Database, jobId: string, names: Known, rows: readonly Telling[]) {
  const writes: Writes = [];
  const records: Telling[] = [];
  const hashes: { id: string; contentHash: string }[] = [];
  for (const record of await closeOuts.ofJob(db, jobId)) {
    const { current, log, terms, ...rest } = record.basis;
    const basis = {
      ...rest,
      terms: handedToNobody(terms),
      log: withoutKnownIn(log, names),
      ...(current && { current: { ...current, input: inputWithout(current.input, names) } }),
    };
    const result = withoutKnownIn({ ...record.result, account: handedToNobody(record.result.account) }, names);
    const hash = await contentHash({ basis, result });
    const reason = leftOf("close_outs", { ...record }, names);
    writes.push(db.update(closeOutsTable).set({ basis, result, pdf: new Uint8Array() }).where(eq(closeOutsTable.id, record.id)));
    records.push(await tellingOf("close_outs", { ...record, ...reason, basis, result } as CloseOutRecord));
    hashes.push({ id: record.id, contentHash: hash });
  }
  return { writes, records: records.length > 0 ? records : rows.filter(({ in: table }) => table === "close_outs"), hashes };
}

/** Whoever came for the unit, what went with it and how it looked is the owner's, named or not. */
const handedToNobody = <T extends Pick<AccountTerms, "handBack">>(kept: T): T =>
  kept.handBack
    ? {
        ...kept,
        handBack: {
          ...(kept.handBack.to !== undefined && { to: ERASED }),
          accessories: kept.handBack.accessories.map(() => ERASED),
          ...(kept.handBack.note !== undefined && { note: ERASED }),
        },
      }
    : kept;

async function erasedEvents(db: Database, jobId: string, names: Known) {
  const writes: Writes = [];
  const hashes: { number: number; hash: string }[] = [];
  for (const { number, content } of await eventsOf(db, jobId)) {
    const left = withoutKnownIn(content, names);
    if (JSON.stringify(left) === JSON.stringify(content)) continue;
    writes.push(
      db
        .update(eventsTable)
        .set({ content: left as object })
        .where(and(eq(eventsTable.job, jobId), eq(eventsTable.number, number))),
    );
    hashes.push({ number, hash: await contentHash(left) });
  }
  return { writes, hashes };
}

const jobRow = (db: Database, jobId: string, at: Instant): Writes => [
  db
    .update(jobsTable)
    .set({
      ...{
        reported: sql`CASE WHEN reported IS NULL THEN NULL ELSE ${ERASED} END` as never,
        condition: null,
        accessories: null,
        notes: null,
      },
      ...{ version: sql`version + 1` as never, updatedAt: at },
    })
    .where(eq(jobsTable.id, jobId)),
];
