/** Counts of the latest issued revisions of a model's earlier jobs, read item by item so that no whole estimate is fetched. */
import { sql } from "drizzle-orm";
import type { CountSeen } from "../estimating/closeout/earlierCounts.js";
import type { Database } from "./database.js";

/** Older jobs say less about today's units, and reading them all would grow with the years. */
export const MOST_EARLIER_JOBS = 200;

export interface EarlierJobs {
  readonly jobs: number;
  readonly seen: readonly CountSeen[];
}

/**
 * `except`: the job that is being written. Maker and model are the same whatever the case of A to Z. Options not chosen and
 * work in the shop's own words are left out: what is on no list is counted nowhere.
 */
export async function earlierJobs(db: Database, maker: string, model: string, except = ""): Promise<EarlierJobs> {
  const latest = sql`
    select e.id as id, e.job_id as job, e.input as input
    from (
      select j.id as id, (select i.id from issues i where i.job_id = j.id order by i.revision desc limit 1) as issue
      from units u join jobs j on j.unit_id = u.id
      where lower(u.maker) = lower(${maker}) and lower(u.model) = lower(${model}) and j.id <> ${except}
        and exists (select 1 from issues i where i.job_id = j.id)
      order by j.year desc, j.sequence desc limit ${MOST_EARLIER_JOBS}
    ) as those join estimates e on e.id = those.issue`;
  const items = sql`
    select l.job as job, item.value ->> '$.assembly' as assembly, item.value ->> '$.operation' as operation,
      coalesce(item.value ->> '$.part.type', kind.type) as partType, item.value ->> '$.count' as count
    from (${latest}) as l, json_each(l.input, '$.items') as item
    left join part_kinds kind on kind.id = item.value ->> '$.part.kind'
    where item.value ->> '$.operation' is not null and (item.value ->> '$.certainty.is' <> 'optional' or item.value ->> '$.certainty.chosen' = 1)`;
  const names = sql`
    select l.job as job, a.value ->> '$.id' as id, a.value ->> '$.name' as name
    from (${latest}) as l left join json_each(l.input, '$.map.assemblies') as a`;
  const [counted, named] = await Promise.all([
    db.all<{ job: string; assembly: string | null; operation: string; partType: string | null; count: number }>(items),
    db.all<{ job: string; id: string | null; name: string | null }>(names),
  ]);
  const nameOf = new Map(named.map(({ job, id, name }) => [`${job} ${id}`, name]));
  const seen = counted.map(
    ({ job, assembly, operation, partType, count }): CountSeen => ({
      job,
      operation,
      count,
      ...(assembly !== null && { assembly: nameOf.get(`${job} ${assembly}`) ?? assembly }),
      ...(partType !== null && { partType }),
    }),
  );
  return { jobs: new Set(named.map(({ job }) => job)).size, seen };
}

const MOST_WORDS = 200;

/** Work and parts that the newest estimates say in own words, the newest first. */
export async function earlierWords(db: Database): Promise<{ readonly works: string[]; readonly parts: string[] }> {
  const rows = await db.all<{ work: string | null; part: string | null }>(sql`
    select distinct json_each.value ->> '$.own.name' as work, json_each.value ->> '$.part.own.name' as part
    from (select input from estimates order by id desc limit ${MOST_EARLIER_JOBS}) as newest_revisions,
      json_each(newest_revisions.input, '$.items')
    where work is not null or part is not null
    limit ${MOST_WORDS}`);
  const said = (key: "work" | "part") => [...new Set(rows.flatMap((row) => row[key] ?? []))];
  return { works: said("work"), parts: said("part") };
}
