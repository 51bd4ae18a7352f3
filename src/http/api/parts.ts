/** Parts to get: the pick list of a job, the order list over all jobs agreed to and not closed, and what was ordered. */
import { createRoute, z } from "@hono/zod-openapi";
import { shopRateBook } from "../../acts/checked.js";
import { endOrder, placeOrder } from "../../acts/order.js";
import { jobPickList, shopOrderList } from "../../acts/partsToGet.js";
import { keptOrder, orderListAnswer, pickListAnswer } from "../../acts/shapes/parts.js";
import { today } from "../../acts/today.js";
import { findOrder, orderPage } from "../../records/orders.js";
import { shopSettings } from "../../records/settings.js";
import { apiDoor } from "../doors/api.js";
import { orderListFile } from "../orderListFile.js";
import { ALWAYS, json, problems } from "./answers.js";
import { refused } from "./change.js";
import { linkNext, paged, pageOf } from "./paged.js";
import { router } from "./router.js";

export const parts = router();
const tags = ["parts to get"];

parts.openapi(
  createRoute({
    method: "get",
    path: "/api/jobs/{id}/parts",
    tags,
    operationId: "findPickList",
    summary: "What to fetch for a job: needed, used, on the shelf, to get",
    request: { params: z.strictObject({ id: z.string().min(1).max(100) }) },
    responses: { 200: json(pickListAnswer, "By part and by assembly"), ...problems("not found", "query refused", ...ALWAYS) },
  }),
  async (c) => {
    const found = await jobPickList(c.var.db, c.req.valid("param").id);
    if (!found) return refused(c, "not found", { detail: "There is no such job, or nothing is agreed for it yet." });
    const { revision, closedOn, list } = found;
    return c.json({ revision, ...(closedOn !== undefined && { closedOn }), ...list } as never, 200) as never;
  },
);

parts.openapi(
  createRoute({
    method: "get",
    path: "/api/order-list",
    tags,
    operationId: "findOrderList",
    summary: "What to order for all open jobs together, by source",
    responses: { 200: json(orderListAnswer, "As of today"), ...problems(...ALWAYS) },
  }),
  async (c) => {
    const { timeZone } = await shopSettings(c.var.db);
    const { list, jobs } = await shopOrderList(c.var.db, today(c.var.clock(), timeZone), await shopRateBook(c.var.db));
    const named = [...jobs].map(([id, { number, unit }]) => ({ id, number, unit }));
    return c.json({ ...list, jobs: named } as never, 200) as never;
  },
);

parts.openapi(
  createRoute({
    method: "get",
    path: "/api/order-list.csv",
    tags,
    operationId: "exportOrderList",
    summary: "What to order for all open jobs together, as CSV (RFC 4180)",
    description: "The file of the page: a row a part and source",
    responses: { 200: { description: "CSV", content: { "text/csv": { schema: { type: "string" } } } }, ...problems(...ALWAYS) },
  }),
  async (c) => (await orderListFile(c)) as never,
);

parts.openapi(
  createRoute({
    method: "get",
    path: "/api/orders",
    tags: ["orders"],
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

parts.openapi(
  createRoute({
    method: "get",
    path: "/api/orders/{id}",
    tags: ["orders"],
    operationId: "findOrder",
    summary: "One order",
    request: { params: z.strictObject({ id: z.string().min(1).max(100) }) },
    responses: { 200: json(keptOrder, "The order"), ...problems("not found", "query refused", ...ALWAYS) },
  }),
  async (c) => {
    const found = await findOrder(c.var.db, c.req.valid("param").id);
    return found ? (c.json(found as never, 200) as never) : refused(c, "not found", { detail: "There is no such order." });
  },
);

apiDoor(parts, placeOrder, {
  ...{ path: "/api/orders", tag: "orders", on: () => ({}), refusals: [] },
  headers: ({ id }) => ({ location: `/api/orders/${encodeURIComponent(id)}` }),
  headersTold: { Location: "The order" },
});
apiDoor(parts, endOrder, {
  ...{ path: "/api/orders/{id}/ending", tag: "orders", refusals: ["not found"] },
  on: ({ id }) => ({ order: id }),
});
