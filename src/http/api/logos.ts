/** Pictures for the top of the shop's documents. The settings name the one in use; those that were are kept for the papers that carry them. */
import { createRoute, z } from "@hono/zod-openapi";
import { logoId } from "../../acts/shapes/estimateInput.js";
import { logos as records } from "../../records/logos.js";
import { readLogo } from "../logo.js";
import { ALWAYS, json, problems } from "./answers.js";
import { refused } from "./change.js";
import { router } from "./router.js";

export const logos = router();
const tags = ["settings"];
const binary = { schema: { type: "string" as const, format: "binary" } };
const pictures = { "image/png": binary, "image/jpeg": binary };
const keptLogo = z
  .strictObject({ id: logoId, kind: z.enum(["png", "jpeg"]), width: z.int(), height: z.int() })
  .meta({ id: "Logo" });

logos.openapi(
  createRoute({
    method: "post",
    path: "/api/logos",
    tags,
    operationId: "addLogo",
    summary: "Keep a picture, PNG or JPEG, at most 200 kB and 2,000 pixels either way; the settings then name it",
    description:
      "It is checked by its content and kept as documents carry it: without what a camera wrote into it, and with what was see-through laid on white. The same picture has the same id, so a repeat adds nothing.",
    request: { body: { required: true, content: pictures } },
    responses: {
      201: json(keptLogo, "Kept"),
      ...problems("role wanted", "media type unsupported", "input refused", "body too large", "other site", ...ALWAYS),
    },
  }),
  async (c) => {
    const read = await readLogo(new Uint8Array(await c.req.arrayBuffer()));
    if ("wrong" in read)
      return refused(c, "input refused", { errors: [{ pointer: "", name: "picture unreadable", detail: read.wrong }] });
    const id = await records.keep(c.var.db, read, c.var.clock().toISOString());
    const { kind, width, height } = read;
    return c.json({ id, kind, width, height }, 201) as never;
  },
);

logos.openapi(
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
    const found = await records.find(c.var.db, c.req.valid("param").id);
    if (!found) return refused(c, "not found", { detail: "There is no such logo." });
    return c.body(found.bytes as Uint8Array<ArrayBuffer>, 200, {
      "content-type": `image/${found.kind}`,
      "cache-control": "private, max-age=31536000, immutable",
    }) as never;
  },
);
