/** The shop's settings, and the pictures that stand or stood at the top of its documents, kept for the papers that carry them. */
import { createRoute, z } from "@hono/zod-openapi";
import { keepLogo, onShop, replaceSettings } from "../../acts/settings.js";
import { logos } from "../../records/logos.js";
import { shopSettings } from "../../records/settings.js";
import { apiDoor, KEY_HEADER, ON_KEY, throughDoor } from "../doors/api.js";
import { readLogo } from "../logo.js";
import { ALWAYS, json, problems } from "./answers.js";
import { refused } from "./change.js";
import { etagOf, isFresh } from "./etag.js";
import { router } from "./router.js";

export const settings = router();
const path = "/api/settings";
const tags = ["settings"];
const ETAG = { ETag: { schema: { type: "string" as const }, description: "Its version" } };

settings.openapi(
  createRoute({
    method: "get",
    path,
    tags,
    operationId: "findSettings",
    summary: "The shop's own settings",
    responses: {
      200: { ...json(replaceSettings.answer, "Settings"), headers: ETAG },
      304: { description: "Unchanged" },
      ...problems(...ALWAYS),
    },
  }),
  async (c) => {
    const shop = await shopSettings(c.var.db);
    c.header("etag", etagOf(shop));
    return (isFresh(c, etagOf(shop)) ? c.body(null, 304) : c.json(shop, 200)) as never;
  },
);

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
