/** Stock: pieces per part kind, the movements behind a count, and counting anew. */
import { createRoute, z } from "@hono/zod-openapi";
import { uuidv7 } from "uuidv7";
import { movement, shelved, stockCount } from "../../acts/shapes/parts.js";
import { partKinds } from "../../records/partKinds.js";
import { countStock, movementsOf, shelf } from "../../records/stock.js";
import { ALWAYS, json, ON_BODY, problems } from "./answers.js";
import { refused, unlinked } from "./change.js";
import { once } from "./once.js";
import { linkNext, paged, pageOf } from "./paged.js";
import { router } from "./router.js";

export const stock = router();
const tags = ["stock"];

stock.openapi(
  createRoute({
    method: "get",
    path: "/api/stock",
    tags,
    operationId: "listStock",
    summary: "A page of part kinds with the pieces on the shelf",
    request: { query: paged },
    responses: { 200: pageOf(shelved, "Counts"), ...problems("query refused", ...ALWAYS) },
  }),
  async (c) => {
    const { limit, after } = c.req.valid("query");
    const items = (await shelf(c.var.db, limit, after)).map(({ value, stock: pieces, ...kind }) => ({
      ...kind,
      ...(value !== null && { value }),
      stock: pieces ?? 0,
    }));
    linkNext(c, items, limit);
    return c.json({ items } as never, 200) as never;
  },
);

stock.openapi(
  createRoute({
    method: "post",
    path: "/api/stock/counts",
    tags,
    operationId: "addStockCount",
    summary: "What a look at the shelf found",
    middleware: once,
    request: {
      headers: z.object({ "idempotency-key": z.string().optional() }),
      body: { required: true, content: { "application/json": { schema: stockCount } } },
    },
    responses: {
      201: json(movement, "The movement that brings the count there"),
      ...problems("header refused", "idempotency key in flight", "idempotency key reused", ...ON_BODY, ...ALWAYS),
    },
  }),
  async (c) => {
    const value = c.req.valid("json");
    const outcome = await countStock(c.var.db, { ...value, id: uuidv7(), at: c.var.clock().toISOString() });
    if (outcome.is === "missing") return refused(c, "input refused", unlinked({ field: "kind", id: value.kind }));
    return c.json(outcome.record as never, 201) as never;
  },
);

stock.openapi(
  createRoute({
    method: "get",
    path: "/api/part-kinds/{id}/movements",
    tags,
    operationId: "listStockMovements",
    summary: "The last movements of a part kind, newest first",
    request: { params: z.strictObject({ id: z.string().min(1).max(100) }) },
    responses: {
      200: json(z.strictObject({ items: z.array(movement) }), "Up to 200"),
      ...problems("not found", "query refused", ...ALWAYS),
    },
  }),
  async (c) => {
    const { id } = c.req.valid("param");
    if (!(await partKinds.find(c.var.db, id))) return refused(c, "not found", { detail: "There is no such part kind." });
    return c.json({ items: await movementsOf(c.var.db, id, 200) } as never, 200) as never;
  },
);
