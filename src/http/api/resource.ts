/** The four routes every noun has: list, add, find, replace. What a noun does beyond them stands in its own file. */
import type { Context } from "hono";
import { uuidv7 } from "uuidv7";
import type { Fault } from "../../acts/fault.js";
import type { Added, Page, PageWanted, Replaced } from "../../records/answers.js";
import type { Database, Instant } from "../../records/database.js";
import type { AppEnv } from "../bindings.js";
import { heldBack, type Kept, refused, replaced, unlinked } from "./change.js";
import { etagOf, isFresh } from "./etag.js";
import { type Described, resourceRoutes } from "./resourceRoutes.js";
import { router } from "./router.js";

type Narrow = Readonly<Record<string, string>>;

/** `Other`: what else the records may answer to a change. */
export interface Resource<Value, Row extends Kept, Other extends { readonly is: string } = never> extends Described {
  readonly list: (db: Database, wanted: PageWanted, narrow: Narrow) => Promise<Page<Row>>;
  readonly find: (db: Database, id: string) => Promise<Row | undefined>;
  readonly add: (db: Database, id: string, value: Value, at: Instant) => Promise<Added<Row>>;
  readonly replace: (
    db: Database,
    id: string,
    expectedVersion: number,
    value: Value,
    at: Instant,
  ) => Promise<Replaced<Row> | Other>;
  /** What is wrong with a value of the right shape. */
  readonly check?: (db: Database, value: Value) => Promise<readonly Fault[]>;
}

/** The shapes are checked at run time by the routes, so a handler may take their word for it. */
export function resource<Value, Row extends Kept, Other extends { readonly is: string } = never>(
  noun: Resource<Value, Row, Other>,
  refuseOther?: (c: Context<AppEnv>, answer: Other) => never,
) {
  const { path, one } = noun;
  const app = router();
  const routes = resourceRoutes(noun);

  app.openapi(routes.list, (async (c: Context<AppEnv>) => {
    const { limit, after, ...rest } = c.req.valid("query" as never) as { limit: number; after?: string };
    const page = await noun.list(c.var.db, { limit, after }, rest as Narrow);
    if (page.next !== undefined) {
      const query = new URLSearchParams({ ...rest, limit: String(limit), after: page.next });
      c.header("link", `<${path}?${query}>; rel="next"`);
    }
    return c.json({ items: page.rows }, 200);
  }) as never);

  app.openapi(routes.add, (async (c: Context<AppEnv>) => {
    const { id = uuidv7(), ...value } = c.req.valid("json" as never) as Value & { id?: string };
    const errors = await noun.check?.(c.var.db, value as Value);
    if (errors?.length) return refused(c, "input refused", { errors });
    const answer = await noun.add(c.var.db, id, value as Value, c.var.clock().toISOString());
    if (answer.is === "taken") return refused(c, "id taken");
    if (answer.is === "unlinked") return refused(c, "input refused", unlinked(answer));
    c.header("location", `${path}/${encodeURIComponent(answer.record.id)}`);
    c.header("etag", etagOf(answer.record));
    return c.json(answer.record, 201);
  }) as never);

  app.openapi(routes.find, (async (c: Context<AppEnv>) => {
    const record = await noun.find(c.var.db, (c.req.valid("param" as never) as { id: string }).id);
    if (!record) return refused(c, "not found", { detail: `There is no such ${one}.` });
    const tag = etagOf(record);
    c.header("etag", tag);
    return isFresh(c, tag) ? c.body(null, 304) : c.json(record, 200);
  }) as never);

  app.openapi(routes.replace, (async (c: Context<AppEnv>) => {
    const { id } = c.req.valid("param" as never) as { id: string };
    const value = c.req.valid("json" as never) as Value;
    const current = await noun.find(c.var.db, id);
    const held = heldBack(c, one, current);
    if (held) return held;
    const errors = await noun.check?.(c.var.db, value);
    if (errors?.length) return refused(c, "input refused", { errors });
    const answer = await noun.replace(c.var.db, id, current!.version, value, c.var.clock().toISOString());
    return replaced(c, one, answer, refuseOther);
  }) as never);
  return app;
}
