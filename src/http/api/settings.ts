import { createRoute, z } from "@hono/zod-openapi";
import { keptSettings, settingsValue } from "../../acts/shapes/resources.js";
import { settings as records, type Settings, SHOP, shopSettings } from "../../records/settings.js";
import { ALWAYS, json, ON_BODY, problems } from "./answers.js";
import { heldBack, replaced } from "./change.js";
import { etagOf, isFresh } from "./etag.js";
import { router } from "./router.js";

export const settings = router();
const path = "/api/settings";
const tags = ["settings"];

settings.openapi(
  createRoute({
    method: "get",
    path,
    tags,
    operationId: "findSettings",
    summary: "The shop's own settings",
    responses: { 200: json(keptSettings, "Settings"), 304: { description: "Unchanged" }, ...problems(...ALWAYS) },
  }),
  async (c) => {
    const shop = await shopSettings(c.var.db);
    c.header("etag", etagOf(shop));
    return (isFresh(c, etagOf(shop)) ? c.body(null, 304) : c.json(shop, 200)) as never;
  },
);

settings.openapi(
  createRoute({
    method: "put",
    path,
    tags,
    operationId: "replaceSettings",
    summary: "Replace the shop's settings",
    request: {
      headers: z.object({ "if-match": z.string().optional().meta({ description: "The ETag last seen; wanted" }) }),
      body: { required: true, content: { "application/json": { schema: settingsValue } } },
    },
    responses: { 200: json(keptSettings, "Replaced"), ...problems("version wanted", "version moved", ...ON_BODY, ...ALWAYS) },
  }),
  async (c) => {
    const current = await shopSettings(c.var.db);
    const held = heldBack(c, "settings", current);
    if (held) return held;
    const value = c.req.valid("json") as Settings;
    const answer = await records.replace(c.var.db, SHOP, current.version, value, c.var.clock().toISOString());
    return replaced(c, "settings", answer) as never;
  },
);
