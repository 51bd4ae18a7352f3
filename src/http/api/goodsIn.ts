/** Goods in: what came, what was paid, how many were good; and what share of such parts is believed to be good by now. */
import { createRoute, z } from "@hono/zod-openapi";
import { uuidv7 } from "uuidv7";
import { sharesGood } from "../../estimating/closeout/learning/shareGood.js";
import { bringIn, goodsInPage, goodsTested, testGoods } from "../../records/goodsIn.js";
import { goodsInFault } from "../orderFaults.js";
import { goodsIn as goodsInValue, goodsTest, keptGoodsIn, shareBelief } from "../schemas/parts.js";
import { ALWAYS, json, ON_BODY, problems } from "./answers.js";
import { refused } from "./change.js";
import { shopRateBook } from "./checked.js";
import { once } from "./once.js";
import { linkNext, paged, pageOf } from "./paged.js";
import { router } from "./router.js";

export const goodsIn = router();
const tags = ["goods in"];
const headers = z.object({ "idempotency-key": z.string().optional() });
const onPost = ["header refused", "idempotency key in flight", "idempotency key reused", ...ON_BODY, ...ALWAYS] as const;

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

goodsIn.openapi(
  createRoute({
    method: "post",
    path: "/api/goods-in",
    tags,
    operationId: "addGoodsIn",
    summary: "Parts that came in: raises the stock, and makes the price paid a dated offer",
    middleware: once,
    request: { headers, body: { required: true, content: { "application/json": { schema: goodsInValue } } } },
    responses: { 201: json(keptGoodsIn, "In"), ...problems(...onPost) },
  }),
  async (c) => {
    const outcome = await bringIn(c.var.db, uuidv7(), c.req.valid("json") as never, c.var.clock().toISOString());
    if (outcome.is === "in") return c.json(outcome.record as never, 201) as never;
    const { field, text: detail } = goodsInFault(outcome);
    const name = outcome.is === "unknown" ? "record unknown" : outcome.is === "missing" ? "key missing" : "number out of range";
    return refused(c, "input refused", { errors: [{ pointer: `/${field === "good" ? "tested/good" : field}`, name, detail }] });
  },
);

goodsIn.openapi(
  createRoute({
    method: "post",
    path: "/api/goods-in/{id}/tests",
    tags,
    operationId: "addGoodsTest",
    summary: "More pieces of goods in were tested",
    middleware: once,
    request: {
      params: z.strictObject({ id: z.string().min(1).max(100) }),
      headers,
      body: { required: true, content: { "application/json": { schema: goodsTest } } },
    },
    responses: { 201: json(keptGoodsIn, "The goods, with all tests"), ...problems("not found", ...onPost) },
  }),
  async (c) => {
    const test = { ...c.req.valid("json"), id: uuidv7(), goodsInId: c.req.valid("param").id };
    const outcome = await testGoods(c.var.db, test, c.var.clock().toISOString());
    if (outcome.is === "tested") return c.json(outcome.record as never, 201) as never;
    if (outcome.is === "missing") return refused(c, "not found", { detail: "No such goods came in." });
    const { text: detail } = goodsInFault(outcome);
    return refused(c, "input refused", { errors: [{ pointer: "/good", name: "number out of range", detail }] });
  },
);

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
