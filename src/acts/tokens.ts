/** Tokens of programs: made in the name of whoever makes them, and taken back. */
import { z } from "zod";
import { apiTokens, newToken, SCOPES } from "../records/apiTokens.js";
import { signInEvents } from "../records/signInEvents.js";
import { act, refused, wrongField } from "./act.js";
import { line, someOf } from "./field.js";
import { apiToken, madeToken } from "./shapes/staff.js";
import { hand } from "./staff.js";

export const makeToken = act({
  name: "makeToken",
  title: "Make a token for a program",
  fields: z
    .strictObject({ name: line("What it is for", { most: 100 }), scopes: someOf("What it may", SCOPES) })
    .meta({ id: "NewApiToken" }),
  answer: madeToken,
  decide: async (desk, { name, scopes: wanted }) => {
    const { db, at } = desk;
    const scopes = SCOPES.filter((scope) => wanted.includes(scope));
    const more = scopes.filter((scope) => desk.scopes && !desk.scopes.includes(scope));
    if (more.length > 0)
      return wrongField(
        "/scopes",
        "choice unknown",
        `What it may: a token makes none that may more than itself, here ${more.join(", ")}.`,
      );
    const { token, row } = await newToken(desk.newId(), { staffId: hand(desk), name, scopes }, at);
    const { tokenHash: _, ...kept } = row;
    return {
      answer: { ...kept, by: desk.staff!.name, token },
      writes: [apiTokens.adding(db, row), signInEvents.adding(db, { what: "token made", staffId: row.staffId }, at)],
    };
  },
});

export const revokeToken = act({
  name: "revokeToken",
  title: "Take a token back: it opens nothing any more",
  fields: z.strictObject({}),
  answer: apiToken,
  decide: async (desk, _, { token: id }: { readonly token: string }) => {
    const { db, at } = desk;
    const found = await apiTokens.find(db, id);
    if (!found) return refused("not found", { detail: "There is no such token." });
    if (found.revokedAt) return { answer: found };
    return {
      answer: { ...found, revokedAt: at },
      writes: [
        apiTokens.revoke(db, id, at),
        signInEvents.adding(db, { what: "token revoked", staffId: found.staffId, byId: hand(desk) }, at),
      ],
    };
  },
});
