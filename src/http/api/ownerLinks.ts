/** Links to the owner's page. Address and code are told once, so these answers are never kept for an Idempotency-Key. */
import { createRoute, z } from "@hono/zod-openapi";
import { uuidv7 } from "uuidv7";
import { keptOwnerLink, madeOwnerLink, ownerLink, withdrawal } from "../../acts/shapes/agreements.js";
import { estimates } from "../../records/estimates.js";
import { ownerLinks as records } from "../../records/ownerLinks.js";
import { shopSettings } from "../../records/settings.js";
import { expiry, ownerAddress } from "../issuing.js";
import { ALWAYS, json, ON_BODY, problems } from "./answers.js";
import { refused } from "./change.js";
import { router } from "./router.js";

export const ownerLinks = router();
const tags = ["owner links"];
const params = z.strictObject({ id: z.string().min(1).max(100) });

ownerLinks.openapi(
  createRoute({
    method: "post",
    path: "/api/estimates/{id}/owner-links",
    tags,
    operationId: "addOwnerLink",
    summary: "One more link to an issued estimate, for one more address",
    request: { params, body: { required: true, content: { "application/json": { schema: ownerLink } } } },
    responses: {
      201: json(madeOwnerLink, "Made; address and code are told this once"),
      ...problems("not found", "estimate not issued", ...ON_BODY, ...ALWAYS),
    },
  }),
  async (c) => {
    const { by, deliveredTo, days } = c.req.valid("json");
    const now = c.var.clock();
    const wanted = { by, deliveredTo, expiresAt: expiry(now, days ?? (await shopSettings(c.var.db)).linkDays) };
    const answer = await records.add(c.var.db, c.req.valid("param").id, wanted, now.toISOString());
    if (answer.is === "missing") return refused(c, "not found", { detail: "There is no such estimate." });
    if (answer.is === "not issued") return refused(c, "estimate not issued");
    const { link, secret } = answer;
    const made = { ...link, address: ownerAddress(c, secret.fragment), code: secret.code };
    return c.json(made as never, 201, { "cache-control": "no-store" }) as never;
  },
);

ownerLinks.openapi(
  createRoute({
    method: "get",
    path: "/api/estimates/{id}/owner-links",
    tags,
    operationId: "listOwnerLinks",
    summary: "The links made to an estimate, oldest first",
    request: { params },
    responses: { 200: json(z.strictObject({ items: z.array(keptOwnerLink) }), "Links"), ...problems("not found", ...ALWAYS) },
  }),
  async (c) => {
    const found = await estimates.find(c.var.db, c.req.valid("param").id);
    if (!found) return refused(c, "not found", { detail: "There is no such estimate." });
    const all = await records.ofJob(c.var.db, found.jobId);
    return c.json({ items: all.filter(({ estimateId }) => estimateId === found.id) }, 200) as never;
  },
);

ownerLinks.openapi(
  createRoute({
    method: "post",
    path: "/api/owner-links/{id}/withdrawal",
    tags,
    operationId: "withdrawOwnerLink",
    summary: "Withdraw a link: from now on it opens nothing",
    request: { params, body: { required: true, content: { "application/json": { schema: withdrawal } } } },
    responses: { 200: json(keptOwnerLink, "Withdrawn, now or before"), ...problems("not found", ...ON_BODY, ...ALWAYS) },
  }),
  async (c) => {
    const at = c.var.clock().toISOString();
    const link = await records.withdraw(c.var.db, c.req.valid("param").id, uuidv7(), c.req.valid("json"), at);
    if (!link) return refused(c, "not found", { detail: "There is no such link." });
    return c.json(link as never, 200) as never;
  },
);
