/** Forgeries by someone who knows how the records are made: everything after the lie is made to fit it. */
import { canonical } from "../../../src/estimating/agreement/canonical.js";
import { chainText } from "../../../src/estimating/agreement/chain.js";
import { closeOuts } from "../../../src/records/closeOuts.js";
import { contentHash } from "../../../src/records/contentHash.js";
import type { Database } from "../../../src/records/database.js";
import { estimateHash, estimates } from "../../../src/records/estimates.js";
import { issues } from "../../../src/records/issues.js";
import { tellingOf } from "../../../src/records/keptOnce.js";
import { sha256 } from "../../../src/records/sha256.js";
import { eventsOf } from "../../../src/records/trail.js";

type Content = Record<string, unknown>;

const quoted = (text: string): string => `'${text.replaceAll("'", "''")}'`;

/** Statements that change one event and every hash from there on; `cut` events are taken away. */
export async function rewritten(
  db: Database,
  job: string,
  number: number,
  change: (content: Content) => Content,
  cut?: string,
): Promise<string[]> {
  const events = await eventsOf(db, job);
  let previous = events[number - 2]?.hash ?? "";
  const statements: string[] = [];
  let next = number;
  for (const event of events.slice(number - 1)) {
    const at = `WHERE job_id = '${job}' AND number = ${event.number}`;
    if (event.is === cut) {
      statements.push(`DELETE FROM events ${at}`);
      continue;
    }
    const content = event.number === number ? change(event.content as Content) : event.content;
    previous = await sha256(chainText({ ...event, number: next, content }, previous));
    statements.push(
      `UPDATE events SET number = ${next}, content = ${quoted(JSON.stringify(content))}, hash = '${previous}' ${at}`,
    );
    next += 1;
  }
  return statements;
}

/** A final account made a cent dearer, with its hashes and the whole chain after it. */
export async function forgedCloseOut(db: Database, job: string): Promise<string[]> {
  const record = (await closeOuts.standing(db, job))!;
  const result = structuredClone(record.result) as { account: { totals: { total: number; due: number } } };
  result.account.totals.total += 1;
  result.account.totals.due += 1;
  const hash = await contentHash({ basis: record.basis, result });
  const event = (await eventsOf(db, job)).find(({ is }) => is === "closed out")!;
  const row = await tellingOf("close_outs", { ...record, result, contentHash: hash } as never);
  return [
    `UPDATE close_outs SET result = ${quoted(canonical(result))}, content_hash = '${hash}' WHERE id = '${record.id}'`,
    ...(await rewritten(db, job, event.number, (content) => ({ ...content, record: row }))),
  ];
}

/** The last revision made a cent dearer, with its hash, its issue and the whole chain after it; the account that tells on it is gone. */
export async function forgedSheet(db: Database, job: string): Promise<string[]> {
  const issue = (await issues.ofJob(db, job)).at(-1)!;
  const estimate = (await estimates.find(db, issue.id))!;
  const sheet = structuredClone(estimate.sheet!) as { totals: { total: number; due: number } };
  sheet.totals.total += 1;
  sheet.totals.due += 1;
  const contentHash = await estimateHash(await estimates.inputOf(db, estimate), sheet as never);
  const row = { ...issue, contentHash };
  const event = (await eventsOf(db, job)).find(
    ({ is, content }) => is === "issued" && (content as { revision: number }).revision === issue.revision,
  )!;
  const record = await tellingOf("issues", row);
  return [
    `UPDATE estimates SET sheet = ${quoted(canonical(sheet))}, content_hash = '${contentHash}' WHERE id = '${issue.id}'`,
    `UPDATE issues SET content_hash = '${contentHash}' WHERE id = '${issue.id}'`,
    `DELETE FROM close_outs WHERE job_id = '${job}'`,
    ...(await rewritten(db, job, event.number, (content) => ({ ...content, record }), "closed out")),
  ];
}
