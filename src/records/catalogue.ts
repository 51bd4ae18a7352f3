/**
 * The catalogue looked through: parts by any words of what is said of them or of who offers them, what each last cost, how good it
 * proved, and which jobs name it. Triggers keep the words and the names (migration 0017).
 */
import { and, asc, count, eq, inArray, isNotNull, isNull, or, type SQL, sql } from "drizzle-orm";
import type { IsoDate, Minor, SeenGood } from "../estimating/input.js";
import type { Kept } from "./columns.js";
import type { Database } from "./database.js";
import { jobNumber } from "./jobs.js";
import { withoutNulls } from "./noun.js";
import { type PartKindValue, partKindsTable } from "./partKinds.js";

const MOST_WORDS = 8;
/** SQLite's trigram index knows nothing shorter. */
const TRIGRAM = 3;

/** Every word stands somewhere in what is said of a part, or of its type by name (`types`). Undefined where nothing is asked for. */
export function saysAll(typed: string, types: readonly { readonly id: string; readonly name: string }[]): SQL | undefined {
  const words = typed.normalize("NFC").split(/\s+/).filter(Boolean).slice(0, MOST_WORDS);
  return and(
    ...words.map((word) => {
      const named = types.filter(({ name }) => name.toLowerCase().includes(word.toLowerCase())).map(({ id }) => id);
      const told =
        [...word].length < TRIGRAM
          ? sql`id in (select kind from catalogue_entries where told like ${`%${word.replaceAll(/[\\%_]/g, "\\$&")}%`} escape '\\')`
          : sql`id in (select kind from catalogue_entries where id in
              (select rowid from catalogue_words where catalogue_words match ${`"${word.replaceAll('"', '""')}"`}))`;
      return or(told, inArray(partKindsTable.type, named));
    }),
  );
}

type Catalogued = PartKindValue & Kept & { readonly offers: number };

/** A page by name, with how many there are in all; `from` counts those before it. */
export async function catalogued(
  db: Database,
  said: SQL | undefined,
  { from, limit, withdrawn, type }: { from: number; limit: number; withdrawn: boolean; type?: string | undefined },
): Promise<{ readonly rows: readonly Catalogued[]; readonly all: number }> {
  const { withdrawal, name, id } = partKindsTable;
  const which = and(
    withdrawn ? isNotNull(withdrawal) : isNull(withdrawal),
    type === undefined ? undefined : eq(partKindsTable.type, type),
    said,
  );
  const offered = sql<number>`(select count(*) from offers o where o.kind = part_kinds.id and o.withdrawal is null)`;
  const [[found], rows] = await db.batch([
    db.select({ all: count() }).from(partKindsTable).where(which),
    db
      .select({ kind: partKindsTable, offered })
      .from(partKindsTable)
      .where(which)
      .orderBy(sql`${name} collate nocase`, asc(id))
      .limit(limit)
      .offset(from),
  ]);
  return { rows: rows.map(({ kind, offered: offers }) => ({ ...withoutNulls<Catalogued>(kind), offers })), all: found!.all };
}

export interface Paid {
  readonly on: IsoDate;
  readonly source: string;
  /** For all of the pieces. */
  readonly paid: Minor;
  readonly pieces: number;
  readonly currency: string;
}

/** What was paid when pieces of these parts last came in, and how many of all that came were tested good. */
export async function experienceOf(
  db: Database,
  kinds: readonly string[],
): Promise<ReadonlyMap<string, { readonly last: Paid; readonly tested: SeenGood }>> {
  if (kinds.length === 0) return new Map();
  const rows = await db.all<Paid & SeenGood & { readonly kind: string }>(
    sql`select g.kind, g.received_on as "on", g.source, g.paid, g.pieces, g.currency,
        (select coalesce(sum(t.good), 0) from goods_in_tests t join goods_in a on a.id = t.goods_in_id where a.kind = g.kind) as good,
        (select coalesce(sum(t.bad), 0) from goods_in_tests t join goods_in a on a.id = t.goods_in_id where a.kind = g.kind) as bad
      from json_each(${JSON.stringify(kinds)}) k
      join goods_in g on g.id = (select id from goods_in where kind = k.value order by received_on desc, id desc limit 1)`,
  );
  return new Map(rows.map(({ kind, good, bad, ...last }) => [kind, { last, tested: { good, bad } }]));
}

export interface UsedOn {
  readonly id: string;
  /** Such as J-2026-0001. */
  readonly number: string;
  readonly unit: string;
}

/** Jobs of which any revision names the part, or one that was merged into it, newest first. */
export const jobsNaming = async (db: Database, kind: string, limit: number): Promise<UsedOn[]> =>
  (
    await db.all<{ id: string; year: number; sequence: number; unit: string }>(
      sql`select distinct j.id, j.year, j.sequence, u.maker || ' ' || u.model as unit
        from kind_uses k join estimates e on e.id = k.estimate_id join jobs j on j.id = e.job_id join units u on u.id = j.unit_id
        where k.kind = ${kind} or k.kind in (select id from part_kinds where withdrawal ->> '$.into' = ${kind}) order by j.year desc, j.sequence desc limit ${limit}`,
    )
  ).map(({ year, sequence, ...job }) => ({ ...job, number: jobNumber({ year, sequence }) }));

/** Ids of open drafts that name the part. */
export const draftsNaming = async (db: Database, kind: string): Promise<string[]> =>
  (
    await db.all<{ id: string }>(
      sql`select e.id from kind_uses k join estimates e on e.id = k.estimate_id where k.kind = ${kind} and e.issued_at is null`,
    )
  ).map(({ id }) => id);
