/** Parts to get: the pick list of a job, the order list over all jobs agreed to and not closed, and what was ordered. */
import { createRoute } from "@hono/zod-openapi";
import { jobAsItStands } from "../../acts/job.js";
import { endOrder, placeOrder } from "../../acts/order.js";
import { jobPickList, shopOrderList } from "../../acts/partsToGet.js";
import { keptOrder, orderListAnswer, pickListAnswer } from "../../acts/shapes/parts.js";
import { today } from "../../acts/today.js";
import { findOrder, orderPage } from "../../records/orders.js";
import { shopSettings } from "../../records/settings.js";
import { ALWAYS, problems } from "../doors/answers.js";
import { apiDoor } from "../doors/api.js";
import { look } from "../doors/look.js";
import { router } from "../doors/router.js";
import { orderListFile } from "../papers/orderListFile.js";

export const parts = router();
const tags = ["parts to get"];

look(parts, {
  ...{ path: "/api/jobs/{id}/parts", tag: "parts to get", name: "findPickList", answer: pickListAnswer },
  title: "What to fetch for a job: needed, used, on the shelf, to get",
  ...{ says: "By part and by assembly", none: "There is no such job, or nothing is agreed for it yet." },
  one: async (c, { id }) => {
    const job = await jobAsItStands(c.var.db, id);
    const found = job && (await jobPickList(c.var.db, job));
    const { revision, closedOn, list } = found ?? {};
    return found && { revision, ...(closedOn !== undefined && { closedOn }), ...list };
  },
});

look(parts, {
  ...{ path: "/api/order-list", tag: "parts to get", name: "findOrderList", answer: orderListAnswer, says: "As of today" },
  title: "What to order for all open jobs together, by source",
  one: async ({ var: { db, clock } }) => {
    const { timeZone } = await shopSettings(db);
    const { list, jobs } = await shopOrderList(db, today(clock(), timeZone));
    return { ...list, jobs: [...jobs].map(([id, { number, unit }]) => ({ id, number, unit })) };
  },
});

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

look(parts, {
  ...{ path: "/api/orders", tag: "orders", name: "listOrders", answer: keptOrder, says: "Orders" },
  title: "A page of orders, newest first",
  page: (c, limit, after) => orderPage(c.var.db, limit, after),
});

look(parts, {
  ...{ path: "/api/orders/{id}", tag: "orders", name: "findOrder", answer: keptOrder, says: "The order" },
  title: "One order",
  none: "There is no such order.",
  one: (c, { id }) => findOrder(c.var.db, id),
});

apiDoor(parts, placeOrder, {
  ...{ path: "/api/orders", tag: "orders", on: () => ({}), refusals: [] },
  headers: ({ id }) => ({ location: `/api/orders/${encodeURIComponent(id)}` }),
  headersTold: { Location: "The order" },
});
apiDoor(parts, endOrder, {
  ...{ path: "/api/orders/{id}/ending", tag: "orders", refusals: ["not found"] },
  on: ({ id }) => ({ order: id }),
});
