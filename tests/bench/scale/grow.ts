/**
 * Makes a shop large: one small job, quoted, agreed, logged and closed as any is, is put on record as often as wanted, with its
 * owner, unit, revision, answer, log, close-out and what is learnt from it. PDFs are left empty unless wanted; everything else is as it would be.
 */
import { sql } from "drizzle-orm";
import type { Database } from "../../../src/records/database.js";
import { estimates, withFacts } from "../../../src/records/estimates.js";
import { jobs } from "../../../src/records/jobs.js";
import { owners } from "../../../src/records/owners.js";
import { units } from "../../../src/records/units.js";
import { agreedJob, closed } from "../../records/support/closed.js";
import { draftAdded } from "../../records/support/drafts.js";
import { put } from "../../records/support/put.js";

const AT = "2026-11-25T09:00:00.000Z";

/** Tables with rows of a job, in an order in which none names a later one. */
const TABLES = [
  "owners",
  "units",
  "jobs",
  "estimates",
  "issues",
  "owner_links",
  "agreements",
  "work_log",
  "events",
  "close_outs",
  "outcomes",
  "observations",
  "observed",
] as const;

/** A bound number is a real to the client: its text would end in ".0". */
const whole = (number: number) => sql.raw(String(number));
const named = (text: string) => sql.identifier(text);

/** O: agreed to and begun; any other: closed. */
type Template = string;

/** `like`: a job of the shop whose estimate is taken, cut to two works. */
export async function template(db: Database, like: string, of: Template = "T"): Promise<void> {
  const [{ rateBookId, rateBookVersion, input }] = (await estimates.ofJob(db, like)) as [
    Awaited<ReturnType<typeof estimates.ofJob>>[number],
  ];
  await put(
    db,
    owners,
    `${of}-owner`,
    { name: "Ottilie Vantongeren", email: "ottilie@example.org", phone: "+44 20 7946 0018" },
    AT,
  );
  await put(db, units, `${of}-unit`, { ownerId: `${of}-owner`, maker: "Halvard", model: "Drumwright 66", serial: "HD66" }, AT);
  await put(
    db,
    jobs,
    `${of}-job`,
    { ownerId: `${of}-owner`, unitId: `${of}-unit`, arrivedOn: "2020-01-02", reported: "snare mute, hum" },
    AT,
  );
  const small = { ...withFacts(input, { maker: "Halvard", model: "Drumwright 66" }), items: input.items.slice(0, 2) };
  const value = { jobId: `${of}-job`, rateBookId, rateBookVersion, input: small };
  await draftAdded(db, `${of}-estimate`, value, AT);
  if (of === "O") {
    await agreedJob(db, "O-job");
    return;
  }
  await closed(db, `${of}-job`, {}, 1, `${of}-closed`);
  if (of === "T") await logged(db);
}

/** Twenty entries of time a job, as a day at the bench leaves them. */
async function logged(db: Database): Promise<void> {
  await db.run(sql`INSERT INTO work_log (id, job_id, at, item, minutes, person, worked_on)
    WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 20)
    SELECT 'T-log-' || i, 'T-job', ${AT}, (SELECT item FROM work_log WHERE job_id = 'T-job' AND item IS NOT NULL LIMIT 1), 1.5, 'Tamsin Oakhollow', '2026-11-25' FROM n
    WHERE i > (SELECT count(*) FROM work_log WHERE job_id = 'T-job')`);
}

/** Puts the template on record `from + 1` to `to` times more. */
export async function grow(db: Database, from: number, to: number, of: Template = "T", pdfs = false): Promise<void> {
  const ids = new Set<unknown>([`${of}-owner`, `${of}-unit`, `${of}-job`]);
  for (const table of TABLES) {
    const columns = await columnsOf(db, table);
    if (columns.includes("id") && columns.includes("job_id"))
      for (const { id } of await db.all<{ id: unknown }>(sql`SELECT id FROM ${named(table)} WHERE job_id = ${`${of}-job`}`))
        ids.add(id);
  }
  const own = [...ids].map(String);
  for (const table of TABLES) {
    const columns = await columnsOf(db, table);
    const key = table === "owners" ? `${of}-owner` : table === "units" ? `${of}-unit` : `${of}-job`;
    const by = table === "owners" || table === "units" || table === "jobs" ? "id" : "job_id";
    const values = columns.map((column) => (pdfs && column === "pdf" ? sql`t.pdf` : columnOf(table, column, own)));
    await db.run(sql`INSERT INTO ${named(table)} (${sql.join(columns.map(named), sql`, `)})
      WITH RECURSIVE n(i) AS (SELECT ${whole(from + 1)} UNION ALL SELECT i + 1 FROM n WHERE i < ${whole(to)})
      SELECT ${sql.join(values, sql`, `)} FROM n, ${named(table)} t WHERE t.${named(by)} = ${key}`);
  }
  await db.run(sql`ANALYZE`);
}

/** A thousand family names, of three syllables each. */
const syllable = (of: number) => sql`substr('BraColDunEldFenGorHalIthJorKel', 1 + 3 * ((i / ${whole(of)}) % 10), 3)`;

/** Ids that belong to the job are numbered; what tells jobs apart varies with the number. */
function columnOf(table: string, column: string, ids: readonly string[]) {
  const at = sql`t.${named(column)}`;
  if (table === "jobs" && column === "sequence") return sql`(SELECT max(sequence) FROM jobs WHERE year = t.year) + i`;
  if (table === "jobs" && column === "arrived_on") return sql`date('2019-01-01', (i % 2500) || ' days')`;
  if (table === "owners" && column === "name")
    return sql`'Ottilie ' || ${syllable(1)} || lower(${syllable(10)} || ${syllable(100)})`;
  if (table === "units" && column === "serial") return sql`'HD' || (i % 90) || '-' || printf('%06d', i)`;
  if (table === "outcomes" && column === "actual") return sql`${at} + (i * 7919) % 4001 - 2000`;
  if (column === "closed_on") return sql`date('2019-01-01', (i % 2500) || ' days')`;
  if (column === "month") return sql`substr(date('2019-01-01', (i % 2500) || ' days'), 1, 7)`;
  if (column === "model") return sql`${at} || ' mark ' || (i % 40)`;
  if (column === "pdf") return sql`x''`;
  if (column === "basis") return sql`replace(${at}, '"estimateId":"T-estimate"', '"estimateId":"T-estimate-' || i || '"')`;
  if (table === "owner_links" && column.includes("hash")) return sql`${at} || i`;
  return sql`CASE WHEN ${at} IN (${sql.join(
    ids.map((id) => sql`${id}`),
    sql`, `,
  )}) THEN ${at} || '-' || i ELSE ${at} END`;
}

async function columnsOf(db: Database, table: string): Promise<string[]> {
  return (await db.all<{ name: string }>(sql`SELECT name FROM pragma_table_info(${table})`)).map(({ name }) => name);
}
