/** One job: its chain, every row its events tell of, every revision with its sheet and PDF, every answer. The first mismatch ends it. */

import { canonical } from "../../estimating/agreement/canonical.js";
import { verifyChain } from "../../estimating/agreement/chain.js";
import { pricedSet } from "../../estimating/agreement/choices.js";
import { estimate as compute } from "../../estimating/estimate.js";
import { neverMore } from "../../estimating/sheet/terms.js";
import type { Sheet } from "../../estimating/sheet.js";
import { type Agreement, answersOf } from "../../records/agreements.js";
import { closeOuts } from "../../records/closeOuts.js";
import { contentHash } from "../../records/contentHash.js";
import type { Database } from "../../records/database.js";
import { type Estimate, estimateHash, estimates } from "../../records/estimates.js";
import { type Issue, issues } from "../../records/issues.js";
import type { Telling } from "../../records/keptOnce.js";
import { rowsOnRecord } from "../../records/onRecord.js";
import { rateBooks } from "../../records/rateBooks.js";
import { sha256 } from "../../records/sha256.js";
import { eventsOf, type JobEvent, shortHead } from "../../records/trail.js";
import { type Erased, erasedIn, rowKey } from "../erasure/erased.js";
import { closeOutMismatch } from "./closeOutMismatch.js";
import { type Mismatch, sumsThatDiffer } from "./mismatch.js";

export interface Checked {
  readonly events: number;
  readonly rows: number;
  readonly revisions: number;
  /** What told of the owner was erased. */
  readonly erased: boolean;
  readonly mismatch?: Mismatch;
}

const TRIES = 20;

/**
 * `heads`: short forms from paper, such as 12-3f9a2b7c1d0e4f56. The tables are read one after the other: where someone wrote meanwhile,
 * what does not match is looked at again.
 */
export async function verifyJob(db: Database, jobId: string, heads: readonly string[]): Promise<Checked> {
  for (let tries = 1; ; tries += 1) {
    const { head, ...checked } = await readOnce(db, jobId, heads);
    if (!checked.mismatch || tries === TRIES || (await eventsOf(db, jobId)).at(-1)?.hash === head) return checked;
  }
}

async function readOnce(
  db: Database,
  jobId: string,
  heads: readonly string[],
): Promise<Checked & { readonly head: string | undefined }> {
  // Events are read before the rest and after it: a row is told of by the later ones, and what the earlier ones tell of is there.
  const [before, rows, kept, issued, answers, closed, events] = [
    await eventsOf(db, jobId),
    await rowsOnRecord(db, jobId),
    await estimates.asWritten(db, jobId),
    await issues.ofJob(db, jobId),
    await answersOf(db, jobId),
    await closeOuts.ofJob(db, jobId),
    await eventsOf(db, jobId),
  ];
  const erased = erasedIn(events);
  const counts = { events: events.length, rows: rows.length, revisions: kept.length, erased: erased !== undefined };
  const first = await firstOf([
    () => chainMismatch(events, [...issued, ...closed], erased),
    async () => headMismatch(events, heads),
    async () => rowMismatch(before, events, rows, erased),
    async () => revisionsMismatch(kept, issued),
    ...kept.map(
      (estimate) => () =>
        estimateMismatch(
          db,
          estimate,
          issued.find(({ id }) => id === estimate.id),
          events,
          erased?.revisions.get(estimate.revision),
        ),
    ),
    ...answers.map((answer) => () => answerMismatch(db, answer, issued)),
    ...closed.map((record) => () => closeOutMismatch(db, record, closed, issued, erased?.closeOuts.get(record.id))),
  ]);
  return { ...counts, head: events.at(-1)?.hash, ...(first && { mismatch: first }) };
}

async function firstOf(checks: readonly (() => Promise<Mismatch | undefined>)[]): Promise<Mismatch | undefined> {
  for (const check of checks) {
    const found = await check();
    if (found) return found;
  }
  return undefined;
}

async function chainMismatch(
  events: readonly JobEvent[],
  printed: readonly Pick<Issue, "headNumber" | "headHash">[],
  erased: Erased | undefined,
): Promise<Mismatch | undefined> {
  const heads = printed.map(({ headNumber, headHash }) => ({ number: headNumber, hash: headHash }));
  const result = await verifyChain(events, sha256, heads, erased?.events);
  return result.ok ? undefined : { is: "chain", fault: result.fault };
}

function headMismatch(events: readonly JobEvent[], heads: readonly string[]): Mismatch | undefined {
  const known = new Set([shortHead({ number: 0, hash: "" }), ...events.map(shortHead)]);
  const head = heads.find((given) => !known.has(given));
  return head === undefined ? undefined : { is: "head given", head };
}

const tellingsOf = (events: readonly JobEvent[]): Telling[] =>
  events.flatMap(({ content }) => (content as { record?: Telling }).record ?? []);

function rowMismatch(
  before: readonly JobEvent[],
  events: readonly JobEvent[],
  rows: readonly Telling[],
  erased: Erased | undefined,
): Mismatch | undefined {
  const tellings = tellingsOf(events);
  const tellingByRow = new Map([...tellings.map((row) => [rowKey(row), row] as const), ...(erased?.records ?? [])]);
  const there = new Set(rows.map(rowKey));
  for (const row of rows) {
    const telling = tellingByRow.get(rowKey(row));
    if (!telling) return { is: "row untold", in: row.in, id: row.id };
    if (telling.hash !== row.hash) return { is: "row changed", in: row.in, id: row.id };
  }
  const gone = tellingsOf(before).find((row) => !there.has(rowKey(row)));
  return gone && { is: "row missing", in: gone.in, id: gone.id };
}

function revisionsMismatch(kept: readonly Estimate[], issued: readonly Issue[]): Mismatch | undefined {
  const found = kept.map(({ revision }) => revision);
  if (found.some((revision, at) => revision !== at + 1)) return { is: "revisions", found };
  for (const { id, revision, at, by, contentHash } of issued) {
    const estimate = kept.find((each) => each.id === id);
    if (estimate?.revision !== revision || estimate.issuedAt !== at || estimate.issuedBy !== by)
      return { is: "not frozen", revision };
    if (estimate.contentHash !== contentHash) return { is: "content hash", revision };
  }
  return undefined;
}

/** `left`: hash of the content that an erasure left. */
async function estimateMismatch(
  db: Database,
  estimate: Estimate,
  issue: Issue | undefined,
  events: readonly JobEvent[],
  left: string | undefined,
): Promise<Mismatch | undefined> {
  const { revision, rateBookId, rateBookVersion, sheet } = estimate;
  const early = !issue && (await isOfFirstSchema(estimate, events));
  if (estimate.issuedAt && !issue && !early) return { is: "not issued", revision };
  if (!(await rateBooks.findVersion(db, rateBookId, rateBookVersion)))
    return { is: "rate book missing", revision, book: `${rateBookId} version ${rateBookVersion}` };
  const input = await estimates.inputOf(db, estimate);
  if (!early && (await estimateHash(input, sheet)) !== (left ?? estimate.contentHash)) return { is: "content hash", revision };
  const outcome = compute(input);
  const made = outcome.ok ? outcome.sheet : undefined;
  const since = sheet && !sheet.time.charged ? beforeCharged : (as: Sheet) => as;
  const kept = canonical(sheet ? since(sheet) : null);
  const [now, before] = made ? [since(made), since(beforeMinimums(made))] : [null, null];
  if (canonical(now) !== kept && canonical(before) !== kept) return { is: "sheet", revision };
  const sums = sheet ? sumsThatDiffer(sheet) : [];
  if (sums.length > 0) return { is: "sums", revision, sums };
  if (!issue) return undefined;
  const pdf = await issues.pdf(db, issue.id);
  // What an erasure took away stays away; its hash stands with the issue.
  if (left === undefined ? !pdf || (await sha256(pdf)) !== issue.pdfHash : pdf?.length !== 0) return { is: "pdf", revision };
  const { headNumber: number, headHash: hash } = issue;
  return input.paperwork?.chainHead === shortHead({ number, hash }) ? undefined : { is: "head on paper", revision };
}

/** As sheets were until 2026-11-28, when they began to tell of minimum orders. No figure differs. */
const beforeMinimums = (sheet: Sheet): Sheet => ({
  ...sheet,
  lines: sheet.lines.map((line) => ({ ...line, from: line.from.filter((source) => source.is !== "minimum order") })),
  warnings: sheet.warnings.filter((warning) => warning.is !== "minimum order"),
});

/** Until 2026-11-29 a sheet told the likely time of a group and of a refit, whatever it charged. No amount differs. */
const beforeCharged = (sheet: Sheet): Sheet => ({
  ...sheet,
  access: { ...sheet.access, refit: sheet.access.refit.map((step) => ({ ...step, minutes: 0 })) },
  time: { ...sheet.time, charged: undefined } as unknown as Sheet["time"],
  ifFound: sheet.ifFound.map((group) => ({ ...group, minutes: 0 })),
  options: sheet.options.map((group) => ({ ...group, minutes: 0 })),
});

/** Before issues and events were kept, an estimate was hashed beside the name of its rate book, not with the book. */
async function isOfFirstSchema(estimate: Estimate, events: readonly JobEvent[]): Promise<boolean> {
  const { input, rateBookId, rateBookVersion, sheet, revision } = estimate;
  const issued = events.some(({ is, content }) => is === "issued" && (content as { revision?: number }).revision === revision);
  return !issued && (await contentHash({ input, rateBookId, rateBookVersion, sheet })) === estimate.contentHash;
}

async function answerMismatch(db: Database, answer: Agreement, issued: readonly Issue[]): Promise<Mismatch | undefined> {
  const { id, estimateId, contentHash, pdfHash, amount, ceiling, deposit } = answer;
  const issue = issued.find((each) => each.id === estimateId);
  if (issue?.contentHash !== contentHash || issue.pdfHash !== pdfHash) return { is: "answer", id, what: "revision" };
  if (answer.answer === "declined") return undefined;
  const estimate = (await estimates.find(db, estimateId))!;
  const priced = pricedSet(await estimates.inputOf(db, estimate), answer);
  if ("is" in priced || priced.sheet.totals.total !== amount) return { is: "answer", id, what: "amount" };
  // Before 2026-11-29 a total above the owner's own ceiling stood beside that ceiling.
  if (![neverMore(priced.sheet), priced.sheet.ceiling.amount].includes(ceiling!)) return { is: "answer", id, what: "ceiling" };
  const promised = deposit === undefined || priced.sheet.deposit.amount === deposit;
  return promised ? undefined : { is: "answer", id, what: "deposit" };
}
