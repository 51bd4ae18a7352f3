/** The shop's settings, the pictures that stand or stood at the top of its documents, and its send hook. */
import { createRoute, z } from "@hono/zod-openapi";
import { attempt, changeHook, testHook } from "../../acts/sendHook.js";
import { keepLogo, onShop, replaceSettings } from "../../acts/settings.js";
import { logos } from "../../records/logos.js";
import { sendAttempts, sendHook } from "../../records/sendHook.js";
import { shopSettings } from "../../records/settings.js";
import { ALWAYS, json, problems } from "../doors/answers.js";
import { apiDoor, KEY_HEADER, ON_KEY, throughDoor } from "../doors/api.js";
import { etagOf } from "../doors/etag.js";
import { readLogo } from "../doors/logo.js";
import { look } from "../doors/look.js";
import { router } from "../doors/router.js";
import { deliverTest } from "../sending/send.js";
import { refused } from "./change.js";

export const settings = router();
const path = "/api/settings";
const tags = ["settings"];

look(settings, {
  ...{ path, tag: "settings", name: "findSettings", answer: replaceSettings.answer, says: "Settings", tagOf: etagOf },
  title: "The shop's own settings",
  one: (c) => shopSettings(c.var.db),
});

apiDoor(settings, replaceSettings, {
  ...{ method: "put", path, tag: "settings", refusals: [], onVersion: true },
  on: (_, seen) => onShop(seen),
  headers: (shop) => ({ etag: etagOf(shop) }),
  headersTold: { ETag: "Its version" },
});

const binary = { schema: { type: "string" as const, format: "binary" } };
const pictures = { "image/png": binary, "image/jpeg": binary };

settings.openapi(
  createRoute({
    method: "post",
    path: "/api/logos",
    tags,
    operationId: keepLogo.name,
    summary: keepLogo.title,
    description:
      "It is checked by its content and kept as documents carry it: without what a camera wrote into it, and with what was see-through laid on white. The same picture has the same id, so a repeat adds nothing.",
    request: { headers: z.object(KEY_HEADER), body: { required: true, content: pictures } },
    responses: {
      201: json(keepLogo.answer, "Kept"),
      ...problems(...ON_KEY, "media type unsupported", "input refused", "body too large", "other site", ...ALWAYS),
    },
  }),
  async (c) => {
    const read = await readLogo(new Uint8Array(await c.req.arrayBuffer()));
    if ("wrong" in read)
      return refused(c, "input refused", { errors: [{ pointer: "", name: "picture unreadable", detail: read.wrong }] });
    return (await throughDoor(c, keepLogo, {}, read, (kept) => ({
      ...{ status: 201, headers: { "content-type": "application/json" }, body: JSON.stringify(kept) },
    }))) as never;
  },
);

settings.openapi(
  createRoute({
    method: "get",
    path: "/api/logos/{id}",
    tags,
    operationId: "findLogo",
    summary: "A picture that stands or stood at the top of the shop's documents",
    request: { params: z.strictObject({ id: z.string().min(1).max(100) }) },
    responses: { 200: { description: "The picture", content: pictures }, ...problems("not found", ...ALWAYS) },
  }),
  async (c) => {
    const found = await logos.find(c.var.db, c.req.valid("param").id);
    if (!found) return refused(c, "not found", { detail: "There is no such logo." });
    return c.body(found.bytes as Uint8Array<ArrayBuffer>, 200, {
      "content-type": `image/${found.kind}`,
      "cache-control": "private, max-age=31536000, immutable",
    }) as never;
  },
);

const hookPath = "/api/send-hook";
const MOST_ATTEMPTS = 200;

look(settings, {
  ...{ path: hookPath, tag: "settings", name: "findSendHook", answer: changeHook.answer, tagOf: etagOf },
  title: "Where the shop's own program takes messages to owners from; version 0 before there is one",
  says: "Without its secret, which is told once",
  one: async (c) => {
    const { url, version } = (await sendHook.find(c.var.db)) ?? { url: undefined, version: 0 };
    return { ...(url !== undefined && { url }), version };
  },
});

apiDoor(settings, changeHook, {
  ...{ method: "put", path: hookPath, tag: "settings", refusals: [], onVersion: true },
  example: { url: "https://shop.example/send" },
  on: (_, seen) => ({ seen }),
  headers: (hook) => ({ etag: etagOf(hook), "cache-control": "no-store" }),
  headersTold: { ETag: "Its version" },
});

apiDoor(settings, testHook, {
  ...{ path: `${hookPath}/test`, tag: "settings", refusals: [], status: 200 },
  description: "It is tried once, and told how it went: taken, not taken and why, or switched off",
  example: {},
  on: (_, __, c) => ({ deliver: deliverTest(c) }),
});

look(settings, {
  ...{ path: `${hookPath}/attempts`, tag: "settings", name: "listSendAttempts", answer: attempt, says: `Up to ${MOST_ATTEMPTS}` },
  title: "The last calls to the shop's program, newest first",
  few: (c) => sendAttempts.last(c.var.db, MOST_ATTEMPTS),
});
