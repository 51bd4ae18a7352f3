/** Parts to get: the pick list of a job, and the order list over all jobs agreed to and not closed. */
import { createRoute, z } from "@hono/zod-openapi";
import { shopRateBook } from "../../acts/checked.js";
import { orderListAnswer, pickListAnswer } from "../../acts/shapes/parts.js";
import { today } from "../../acts/today.js";
import { shopOrderList } from "../../records/orderList.js";
import { jobPickList } from "../../records/pickList.js";
import { shopSettings } from "../../records/settings.js";
import { ALWAYS, json, problems } from "./answers.js";
import { refused } from "./change.js";
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
