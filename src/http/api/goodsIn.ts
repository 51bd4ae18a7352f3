/** Goods in: what came, what was paid, how many were good, and what share is believed to be good by now; and the shelf they lie on. */
import { createRoute, z } from "@hono/zod-openapi";
import { bringIn } from "../../acts/bringIn.js";
import { shopRateBook } from "../../acts/checked.js";
import { countKind } from "../../acts/countStock.js";
import { keptGoodsIn, movement, shareBelief, shelved } from "../../acts/shapes/parts.js";
import { testGoods } from "../../acts/testGoods.js";
import { sharesGood } from "../../estimating/closeout/learning/shareGood.js";
import { goodsInPage, goodsTested } from "../../records/goodsIn.js";
import { partKinds } from "../../records/partKinds.js";
import { movementsOf, shelf } from "../../records/stock.js";
import { apiDoor } from "../doors/api.js";
import { ALWAYS, json, problems } from "./answers.js";
import { refused } from "./change.js";
import { linkNext, paged, pageOf } from "./paged.js";
import { router } from "./router.js";

export const goodsIn = router();
const tags = ["goods in"];

goodsIn.openapi(
  createRoute({
    method: "get",
    path: "/api/goods-in",
    tags,
    operationId: "listGoodsIn",
    summary: "A page of goods in, newest first",
    request: { query: paged },
    responses: {
      200: pageOf(keptGoodsIn, "Goods in"),
      ...problems("query refused", ...ALWAYS),
    },
  }),
  async (c) => {
    const { limit, after } = c.req.valid("query");
    const items = await goodsInPage(c.var.db, limit, after);
    linkNext(c, items, limit);
    return c.json({ items } as never, 200) as never;
  },
);

apiDoor(goodsIn, bringIn, {
  path: "/api/goods-in",
  tag: "goods in",
  description: "Raises the stock, and makes the price paid a dated offer",
  on: () => ({}),
  refusals: [],
});
apiDoor(goodsIn, testGoods, {
  path: "/api/goods-in/{id}/tests",
  tag: "goods in",
  on: ({ id }) => ({ goods: id }),
  refusals: ["not found"],
});

goodsIn.openapi(
  createRoute({
    method: "get",
    path: "/api/shares-good",
    tags,
    operationId: "listSharesGood",
    summary: "What share of the pieces is believed to be good, by state and by source",
    responses: { 200: json(z.strictObject({ items: z.array(shareBelief) }), "Beliefs"), ...problems(...ALWAYS) },
  }),
  async (c) => {
    const items = sharesGood(await goodsTested(c.var.db), await shopRateBook(c.var.db));
    return c.json({ items } as never, 200) as never;
  },
);

goodsIn.openapi(
  createRoute({
    method: "get",
    path: "/api/stock",
    tags: ["stock"],
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

apiDoor(goodsIn, countKind, { path: "/api/stock/counts", tag: "stock", on: () => ({}), refusals: [] });

goodsIn.openapi(
  createRoute({
    method: "get",
    path: "/api/part-kinds/{id}/movements",
    tags: ["stock"],
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
