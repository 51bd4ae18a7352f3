/** What stands in a database file of the marks that were written, and what should not. */
import { join } from "node:path";
import { connectFile } from "../../src/records/connectFile.js";
import type { Database } from "../../src/records/database.js";
import { check } from "../../src/tools/verify/check.js";
import type { Shop, Sort } from "./writes.js";

export interface Told {
  /** Acknowledged. Of drafts only the last counts. */
  readonly done: readonly { readonly sort: Sort; readonly mark: string }[];
  /** Sent and not answered, and not sent again. */
  readonly open: readonly { readonly sort: Sort; readonly mark: string }[];
}

const MARKS: Readonly<Record<Exclude<Sort, "draft saved">, string>> = {
  "new job": "SELECT name AS mark FROM owners",
  "entry by page": "SELECT note AS mark FROM work_log",
  "entry by API": "SELECT note AS mark FROM work_log",
  "goods by page": "SELECT note AS mark FROM goods_in",
  "goods by API": "SELECT note AS mark FROM goods_in",
  "extra fault":
    "SELECT json_extract(value, '$.reason') AS mark FROM estimates, json_each(input, '$.items') WHERE issued_at IS NULL",
};

/** What nothing of the shop leaves behind. */
const HALVES = {
  "job without an estimate": "SELECT id FROM jobs WHERE id NOT IN (SELECT job_id FROM estimates)",
  "unit without a job": "SELECT id FROM units WHERE id NOT IN (SELECT unit_id FROM jobs)",
  "owner without a unit": "SELECT id FROM owners WHERE id NOT IN (SELECT owner_id FROM units)",
  "goods in that are not on the shelf":
    "SELECT id FROM goods_in WHERE (SELECT count(*) FROM stock_movements WHERE goods_in_id = goods_in.id) <> 1",
  "shelf that is not the sum of its movements":
    "SELECT kind AS id FROM stock_movements GROUP BY kind HAVING sum(change) <> (SELECT stock FROM part_kinds WHERE id = kind)",
};

/** A sentence each; none where all is well. `before`: what was half already, in the shop this started from. */
export async function faultsIn(folder: string, shop: Shop, told: Told, before: readonly string[] = []): Promise<string[]> {
  const { db, close } = await connectFile(`file:${join(folder, "ohmwright.db")}`);
  try {
    const verified = await check(["--data", folder], {});
    return [
      ...(verified.code === 0 ? [] : [`verify: ${verified.said}`]),
      ...(await halves(db)).filter((half) => !before.includes(half)),
      ...(await missing(db, told)),
      ...(await halfSaved(db, shop, told)),
    ];
  } finally {
    close();
  }
}

async function rows(db: Database, sql: string): Promise<Readonly<Record<string, unknown>>[]> {
  return (await db.run(sql)).rows as unknown as Record<string, unknown>[];
}

export async function halves(db: Database): Promise<string[]> {
  const found: string[] = [];
  for (const [what, sql] of Object.entries(HALVES)) for (const { id } of await rows(db, sql)) found.push(`${what}: ${id}`);
  return found;
}

async function missing(db: Database, { done, open }: Told): Promise<string[]> {
  const faults: string[] = [];
  for (const [sort, sql] of Object.entries(MARKS)) {
    const times = new Map<unknown, number>();
    for (const { mark } of await rows(db, sql)) times.set(mark, (times.get(mark) ?? 0) + 1);
    for (const each of done)
      if (each.sort === sort && times.get(each.mark) !== 1)
        faults.push(`${sort} ${each.mark}: acknowledged, and stands ${times.get(each.mark) ?? 0} times`);
    for (const each of open)
      if (each.sort === sort && (times.get(each.mark) ?? 0) > 1)
        faults.push(`${sort} ${each.mark}: stands ${times.get(each.mark)} times`);
  }
  return faults;
}

/** The last draft acknowledged, or one sent after it, stands in all four places alike. */
async function halfSaved(db: Database, { draft }: Shop, { done, open }: Told): Promise<string[]> {
  const [row] = await rows(
    db,
    `SELECT owners.phone, units.serial, jobs.reported, json_extract(input, '$.unit.reported') AS input FROM estimates
     JOIN jobs ON jobs.id = job_id JOIN units ON units.id = unit_id JOIN owners ON owners.id = jobs.owner_id
     WHERE estimates.id = '${draft}'`,
  );
  const last = done.findLast(({ sort }) => sort === "draft saved")?.mark;
  if (last === undefined) return [];
  const marks = Object.values(row!).map(String);
  const may = [last, ...open.filter(({ sort }) => sort === "draft saved").map(({ mark }) => mark)];
  return new Set(marks).size === 1 && may.includes(marks[0]!)
    ? []
    : [`draft saved: owner, unit, visit and draft read ${marks.join(", ")}; the last acknowledged is ${last}`];
}
