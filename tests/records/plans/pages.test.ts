/** No page reads a table from end to end that grows with the shop: every statement a page runs is explained by SQLite itself. */
import type { Client, InStatement } from "@libsql/client";
import { describe, expect, it } from "vitest";
import { jobAsItStands } from "../../../src/acts/job.js";
import type { Database } from "../../../src/records/database.js";
import { shop } from "../../http/support/shop.js";
import { closed } from "../support/closed.js";
import { TAPE_ECHO } from "../support/livedIn.js";

/** Small whatever the shop does: its own catalogue, people and settings. */
const SMALL = /^(settings|rate_books|models|part_kinds|staff|send_hooks|seen_good|logos|send_attempts|timers|signing_keys)\b/;

/** The catalogue is read whole by pages that price or order; offers grow with the catalogue, not with jobs. */
const CATALOGUE = /^(part_kinds|offers)\b/;

/** Hold only what is open now: a row leaves when its job is closed, or its order has come. */
const OPEN = /^(open_needs\b|job_states USING INDEX job_states_open|order_lines USING INDEX order_lines_open)/;

type Told = { readonly page: string; readonly sql: string; readonly step: string };

const answered = (page: string) => async (_db: Database, app: Awaited<ReturnType<typeof shop>>["app"]) => {
  expect([page, (await app.request(page)).status]).toEqual([page, 200]);
};

async function scans(reads: Readonly<Record<string, ReturnType<typeof answered>>>): Promise<Told[]> {
  const { db, app } = await shop();
  await closed(db, TAPE_ECHO);
  const client = (db as unknown as { readonly $client: Client }).$client;
  const [execute, batch] = [client.execute.bind(client), client.batch.bind(client)];
  const run: { sql: string; args: unknown }[] = [];
  const note = (statement: InStatement) => {
    const { sql, args } = typeof statement === "string" ? { sql: statement, args: [] } : statement;
    run.push({ sql, args: args ?? [] });
  };
  client.execute = ((statement: InStatement, args?: unknown) => {
    note(typeof statement === "string" ? ({ sql: statement, args: args ?? [] } as InStatement) : statement);
    return execute(statement as string, args as never);
  }) as Client["execute"];
  client.batch = ((statements: InStatement[], mode: never) => {
    for (const statement of statements) note(statement);
    return batch(statements, mode);
  }) as Client["batch"];

  const found: Told[] = [];
  for (const [page, read] of Object.entries(reads)) {
    run.length = 0;
    await read(db, app);
    expect(run.length, page).toBeGreaterThan(0);
    for (const { sql, args } of [...run]) {
      const { rows } = await execute({ sql: `EXPLAIN QUERY PLAN ${sql}`, args: args as never });
      for (const row of rows) {
        const [, scanned] = /^SCAN (\S+)(?! VIRTUAL TABLE)/.exec(String(row.detail)) ?? [];
        if (scanned) found.push({ page, sql, step: String(row.detail).slice(5) });
      }
    }
  }
  return found;
}

/** An index walked in order is no scan where a LIMIT ends it. */
const harmless = ({ sql, step }: Told): boolean =>
  SMALL.test(step) ||
  CATALOGUE.test(step) ||
  OPEN.test(step) ||
  /^(json_each|CONSTANT ROW|newest_versions|newest_revisions|closed_last|\(?subquery)/i.test(step) ||
  /VIRTUAL TABLE INDEX \d+:[^ ]*[M=]/.test(step) ||
  (/USING (COVERING )?INDEX/.test(step) && /\blimit\b/i.test(sql) && !/\b(count|sum|max|min|group by)\b/i.test(sql)) ||
  // Of those closed last so many.
  (step === "outcomes USING INDEX outcomes_closed" && sql.includes("from outcomes order by closed_on desc limit ?)")) ||
  // The last rows of a table by its own number.
  /^select "by" from "stock_movements" order by "stock_movements"."number" desc limit \?$/.test(sql);

describe("query plans of pages", () => {
  it("show no full scan of what grows with the shop", async () => {
    const pages = [
      "/",
      "/?after=zzz",
      "/?state=closed",
      "/?state=with+the+owner&after=zzz",
      "/api/jobs?state=draft",
      "/find?q=tape+echo",
      `/jobs/${TAPE_ECHO}`,
      `/jobs/${TAPE_ECHO}/trail`,
      `/jobs/${TAPE_ECHO}/answers`,
      `/jobs/${TAPE_ECHO}/links`,
      `/jobs/${TAPE_ECHO}/work-log`,
      `/jobs/${TAPE_ECHO}/bench`,
      `/jobs/${TAPE_ECHO}/parts`,
      `/jobs/${TAPE_ECHO}/close-out`,
      "/estimates/new",
      "/models",
      "/parts",
      "/api/jobs",
      "/api/search?q=tape",
    ];
    const found = await scans({
      ...Object.fromEntries(pages.map((page) => [page, answered(page)])),
      "the job as it stands": async (db) => expect(await jobAsItStands(db, TAPE_ECHO)).toBeDefined(),
    });
    const bad = found.filter((told) => !harmless(told)).map(({ page, step, sql }) => `${page}: ${step}: ${sql.slice(0, 200)}`);
    expect([...new Set(bad)]).toEqual([]);
  });

  it("would tell of one", async () => {
    expect(harmless({ page: "", sql: "select * from jobs", step: "jobs" })).toBe(false);
    expect(harmless({ page: "", sql: "select count(*) from jobs", step: "jobs USING COVERING INDEX jobs_unit" })).toBe(false);
    expect(harmless({ page: "", sql: "select * from jobs order by id limit 50", step: "jobs USING INDEX x" })).toBe(true);
  });
});
