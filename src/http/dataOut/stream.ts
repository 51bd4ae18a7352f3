/** A table as it is read: the first page goes out before the last is looked up. */
import { csvText } from "../../documents/csvText.js";
import type { Database } from "../../records/database.js";
import { jobs } from "../../records/jobs.js";
import type { Page, PageWanted } from "../../records/noun.js";
import type { Sheet } from "./columns.js";

export function csvStream({ columns, rows }: Sheet, db: Database): ReadableStream<Uint8Array> {
  const encoder = new TextEncoder();
  const pages = rows(db)[Symbol.asyncIterator]();
  let begun = false;
  return new ReadableStream({
    pull: async (controller) => {
      if (!begun) {
        begun = true;
        // With a byte order mark spreadsheets know the encoding (Unicode 15, 23.8, from memory).
        controller.enqueue(encoder.encode(`\uFEFF${csvText([columns])}`));
        return;
      }
      for (;;) {
        const { done, value } = await pages.next();
        if (done) return controller.close();
        if (value.length === 0) continue;
        return controller.enqueue(encoder.encode(csvText(value)));
      }
    },
  });
}

/** Page after page of a list, so that no table has to fit into memory. */
const ROWS = 200;

export const pagesOf = <Row>(list: (db: Database, wanted: PageWanted) => Promise<Page<Row>>) =>
  async function* (db: Database): AsyncGenerator<readonly Row[]> {
    let after: string | undefined;
    do {
      const page: Page<Row> = await list(db, { limit: ROWS, after });
      yield page.rows;
      after = page.next;
    } while (after !== undefined);
  };

/** A hosted database is a call away: so many jobs are asked for at once. */
const JOBS = 20;

/** What each job has, with its number. */
export const ofEachJob = <Row extends { readonly jobId: string }>(
  rows: (db: Database, jobs: readonly string[]) => Promise<readonly Row[]>,
) =>
  async function* (db: Database): AsyncGenerator<readonly (Row & { readonly job: string })[]> {
    for await (const page of pagesOf(jobs.list)(db))
      for (let at = 0; at < page.length; at += JOBS) {
        const some = page.slice(at, at + JOBS);
        const found = await rows(
          db,
          some.map(({ id }) => id),
        );
        yield some.flatMap(({ id, number: job }) => found.flatMap((row) => (row.jobId === id ? [{ ...row, job }] : [])));
      }
  };
