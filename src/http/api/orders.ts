/** Orders: what was ordered from a source, and that the rest of it will not come. */
import { createRoute, z } from "@hono/zod-openapi";
import { uuidv7 } from "uuidv7";
import { ending, keptOrder, order } from "../../acts/shapes/parts.js";
import { endOrder, findOrder, orderPage, placeOrder } from "../../records/orders.js";
import { orderFaultText } from "../orderFaults.js";
import { ALWAYS, json, ON_BODY, problems } from "./answers.js";
import { refused } from "./change.js";
import { once } from "./once.js";
import { linkNext, paged, pageOf } from "./paged.js";
import { router } from "./router.js";

export const orders = router();
const tags = ["orders"];
const params = z.strictObject({ id: z.string().min(1).max(100) });
const headers = z.object({ "idempotency-key": z.string().optional() });
const missing = { detail: "There is no such order." };
const onPost = ["header refused", "idempotency key in flight", "idempotency key reused", ...ON_BODY, ...ALWAYS] as const;

orders.openapi(
  createRoute({
    method: "get",
    path: "/api/orders",
    tags,
    operationId: "listOrders",
    summary: "A page of orders, newest first",
    request: { query: paged },
    responses: { 200: pageOf(keptOrder, "Orders"), ...problems("query refused", ...ALWAYS) },
  }),
  async (c) => {
    const { limit, after } = c.req.valid("query");
    const items = await orderPage(c.var.db, limit, after);
    linkNext(c, items, limit);
    return c.json({ items } as never, 200) as never;
  },
);

orders.openapi(
  createRoute({
    method: "post",
    path: "/api/orders",
    tags,
    operationId: "addOrder",
    summary: "Mark parts as ordered",
    middleware: once,
    request: { headers, body: { required: true, content: { "application/json": { schema: order } } } },
    responses: { 201: json(keptOrder, "Ordered"), ...problems(...onPost) },
  }),
  async (c) => {
    const value = c.req.valid("json");
    const outcome = await placeOrder(c.var.db, uuidv7(), value as never, c.var.clock().toISOString());
    if (outcome.is === "ordered") return c.json(outcome.record as never, 201) as never;
    const at = value.lines.findIndex(({ offer }) => offer === outcome.offer);
    const pointer = `/lines/${at}/${outcome.is === "below minimum" ? "packs" : "offer"}`;
    const name = outcome.is === "offer unknown" ? "record unknown" : "number out of range";
    return refused(c, "input refused", { errors: [{ pointer, name, detail: orderFaultText(outcome) }] });
  },
);

orders.openapi(
  createRoute({
    method: "get",
    path: "/api/orders/{id}",
    tags,
    operationId: "findOrder",
    summary: "One order",
    request: { params },
    responses: { 200: json(keptOrder, "The order"), ...problems("not found", "query refused", ...ALWAYS) },
  }),
  async (c) => {
    const found = await findOrder(c.var.db, c.req.valid("param").id);
    return found ? (c.json(found as never, 200) as never) : refused(c, "not found", missing);
  },
);

orders.openapi(
  createRoute({
    method: "post",
    path: "/api/orders/{id}/ending",
    tags,
    operationId: "addOrderEnding",
    summary: "The rest of an order will not come",
    middleware: once,
    request: { params, headers, body: { required: true, content: { "application/json": { schema: ending } } } },
    responses: { 201: json(keptOrder, "The order, ended"), ...problems("not found", ...onPost) },
  }),
  async (c) => {
    const ended = await endOrder(c.var.db, c.req.valid("param").id, c.req.valid("json"), c.var.clock().toISOString());
    return ended ? (c.json(ended as never, 201) as never) : refused(c, "not found", missing);
  },
);
