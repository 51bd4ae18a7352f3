/** Page after page of a list, so that no table has to fit into memory. */

import type { Database } from "../../records/database.js";
import { type Job, jobs } from "../../records/jobs.js";
import type { Page, PageWanted } from "../../records/noun.js";

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

/** What each job has, with its number. */
export const ofEachJob = <Row>(rows: (db: Database, job: Job) => Promise<readonly Row[]>) =>
  async function* (db: Database): AsyncGenerator<readonly Row[]> {
    for await (const page of pagesOf(jobs.list)(db)) for (const job of page) yield await rows(db, job);
  };
