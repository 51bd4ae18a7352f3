/** Links to the owner's page. */
import { createRoute, z } from "@hono/zod-openapi";
import { makeOwnerLink } from "../../acts/makeOwnerLink.js";
import { keptOwnerLink } from "../../acts/shapes/agreements.js";
import { withdrawOwnerLink } from "../../acts/withdrawOwnerLink.js";
import { estimates } from "../../records/estimates.js";
import { ownerLinks as records } from "../../records/ownerLinks.js";
import { apiDoor } from "../doors/api.js";
import { ownerAddress } from "../issuing.js";
import { ALWAYS, json, problems } from "./answers.js";
import { refused } from "./change.js";
import { router } from "./router.js";

export const ownerLinks = router();
const tags = ["owner links"];
const params = z.strictObject({ id: z.string().min(1).max(100) });

apiDoor(ownerLinks, makeOwnerLink, {
  path: "/api/estimates/{id}/owner-links",
  tag: "owner links",
  description: "Address and code are told this once; a repeat under the same Idempotency-Key gets the link without them",
  on: ({ id }) => ({ estimate: id }),
  refusals: ["not found", "estimate not issued"],
  shown: ({ secret, ...link }, c) => ({ ...link, address: ownerAddress(c, secret.fragment), code: secret.code }),
  kept: ({ secret: _, ...link }) => link,
  headers: () => ({ "cache-control": "no-store" }),
});

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

apiDoor(ownerLinks, withdrawOwnerLink, {
  path: "/api/owner-links/{id}/withdrawal",
  tag: "owner links",
  description: "From now on it opens nothing; withdrawn before, the first withdrawal stands",
  on: ({ id }) => ({ link: id }),
  refusals: ["not found"],
  status: 200,
});
