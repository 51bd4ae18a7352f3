/** Links to the owner's page. */
import { makeOwnerLink } from "../../acts/makeOwnerLink.js";
import { keptOwnerLink } from "../../acts/shapes/agreements.js";
import { withdrawOwnerLink } from "../../acts/withdrawOwnerLink.js";
import { estimates } from "../../records/estimates.js";
import { ownerLinks as records } from "../../records/ownerLinks.js";
import { apiDoor } from "../doors/api.js";
import { look } from "../doors/look.js";
import { router } from "../doors/router.js";
import { ownerAddress } from "../papers/issuing.js";

export const ownerLinks = router();

apiDoor(ownerLinks, makeOwnerLink, {
  path: "/api/estimates/{id}/owner-links",
  tag: "owner links",
  description: "Address and code are told this once; a repeat under the same Idempotency-Key gets the link without them",
  on: ({ id }, _, c) => ({ estimate: id, reachable: c.var.publicOrigin !== undefined }),
  refusals: ["not found", "estimate not issued", "no public address"],
  shown: ({ secret, ...link }, c) => ({ ...link, address: ownerAddress(c, secret.fragment), code: secret.code }),
  kept: ({ secret: _, ...link }) => link,
  headers: () => ({ "cache-control": "no-store" }),
});

look(ownerLinks, {
  ...{
    path: "/api/estimates/{id}/owner-links",
    tag: "owner links",
    name: "listOwnerLinks",
    answer: keptOwnerLink,
    says: "Links",
  },
  title: "The links made to an estimate, oldest first",
  none: "There is no such estimate.",
  all: async (c, { id }) => {
    const found = await estimates.find(c.var.db, id);
    return found && (await records.ofJob(c.var.db, found.jobId)).filter(({ estimateId }) => estimateId === found.id);
  },
});

apiDoor(ownerLinks, withdrawOwnerLink, {
  path: "/api/owner-links/{id}/withdrawal",
  tag: "owner links",
  description: "From now on it opens nothing; withdrawn before, the first withdrawal stands",
  on: ({ id }) => ({ link: id }),
  refusals: ["not found"],
  status: 200,
});
