/** Who is of the staff, programs' tokens, and the list of sign-ins. */
import { createRoute, z } from "@hono/zod-openapi";
import { apiToken, signInEvent, staffMember } from "../../acts/shapes/staff.js";
import { addStaff, closeAccount, everyone, giveRole, inviteStaff, openAccount } from "../../acts/staff.js";
import { makeToken, revokeToken } from "../../acts/tokens.js";
import { apiTokens } from "../../records/apiTokens.js";
import { signInEvents } from "../../records/signInEvents.js";
import { apiDoor } from "../doors/api.js";
import { deskOf } from "../doors/desk.js";
import { ALWAYS, json, problems } from "./answers.js";
import { refused } from "./change.js";
import { linkNext, paged, pageOf } from "./paged.js";
import { router } from "./router.js";

export const staff = router();
const [tag, tokenTag] = ["staff", "tokens"];

staff.openapi(
  createRoute({
    method: "get",
    path: "/api/staff",
    tags: [tag],
    operationId: "listStaff",
    summary: "Everyone of the staff, by name, closed accounts too",
    responses: { 200: json(z.strictObject({ items: z.array(staffMember) }), "Staff"), ...problems(...ALWAYS) },
  }),
  async (c) => c.json({ items: await everyone(deskOf(c as never)) } as never, 200) as never,
);

staff.openapi(
  createRoute({
    method: "get",
    path: "/api/staff/{id}",
    tags: [tag],
    operationId: "findStaff",
    summary: "One person of the staff",
    request: { params: z.strictObject({ id: z.string().min(1).max(100) }) },
    responses: { 200: json(staffMember, "The person"), ...problems("not found", ...ALWAYS) },
  }),
  async (c) => {
    const { id } = c.req.valid("param");
    const found = (await everyone(deskOf(c as never))).find((each) => each.id === id);
    return found ? (c.json(found as never, 200) as never) : refused(c, "not found", { detail: "There is no such account." });
  },
);

apiDoor(staff, addStaff, {
  path: "/api/staff",
  tag,
  description: "The invitation opens once and ends by itself; a new one ends it. Nobody can sign in before they opened theirs.",
  example: { name: "Ottilie Vantongeren", role: "technician" },
  on: () => ({}),
  refusals: [],
  kept: ({ invitation: { address: _, ...invitation }, ...member }) => ({ ...member, invitation }),
});
apiDoor(staff, inviteStaff, {
  path: "/api/staff/{id}/invitations",
  tag,
  description: "For whoever lost every way in, or comes back. Once it is used, what was signed in before is signed out.",
  example: {},
  on: ({ id }) => ({ staff: id }),
  refusals: ["not found"],
  kept: ({ address: _, ...invited }) => invited,
});
apiDoor(staff, giveRole, {
  method: "put",
  path: "/api/staff/{id}/role",
  tag,
  example: { role: "manager" },
  on: ({ id }) => ({ staff: id }),
  refusals: ["not found", "last manager"],
});
apiDoor(staff, closeAccount, {
  path: "/api/staff/{id}/closing",
  tag,
  description: "Sessions, tokens, passkeys, passphrase, recovery codes and open invitations end with it, all at once.",
  example: {},
  on: ({ id }) => ({ staff: id }),
  refusals: ["not found", "last manager"],
  status: 200,
});
apiDoor(staff, openAccount, {
  path: "/api/staff/{id}/opening",
  tag,
  example: {},
  on: ({ id }) => ({ staff: id }),
  refusals: ["not found"],
  status: 200,
});

staff.openapi(
  createRoute({
    method: "get",
    path: "/api/sign-ins",
    tags: [tag],
    operationId: "listSignIns",
    summary: "A page of who came in, who was refused and what changed about who may, newest first",
    request: { query: paged },
    responses: { 200: pageOf(signInEvent, "Sign-ins"), ...problems("query refused", ...ALWAYS) },
  }),
  async (c) => {
    const { limit, after } = c.req.valid("query");
    const items = await signInEvents.latest(c.var.db, limit, after);
    linkNext(c, items, limit);
    return c.json({ items } as never, 200) as never;
  },
);

staff.openapi(
  createRoute({
    method: "get",
    path: "/api/tokens",
    tags: [tokenTag],
    operationId: "listTokens",
    summary: "Every token that was made, newest first, revoked ones too",
    responses: { 200: json(z.strictObject({ items: z.array(apiToken) }), "Tokens"), ...problems(...ALWAYS) },
  }),
  async (c) => c.json({ items: await apiTokens.all(c.var.db) } as never, 200) as never,
);

apiDoor(staff, makeToken, {
  path: "/api/tokens",
  tag: tokenTag,
  description: "It acts in the name of whoever makes it and never may more; a token makes none that may more than itself.",
  example: { name: "Till", scopes: ["read"] },
  on: () => ({}),
  refusals: [],
  kept: ({ token: _, ...kept }) => kept,
});
apiDoor(staff, revokeToken, {
  path: "/api/tokens/{id}/revocation",
  tag: tokenTag,
  example: {},
  on: ({ id }) => ({ token: id }),
  refusals: ["not found"],
  status: 200,
});
