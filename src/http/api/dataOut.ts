/** What the shop takes away: each noun as CSV, and all that is held about one owner; and the owner's erasure. */
import { createRoute, z } from "@hono/zod-openapi";
import { eraseOwner, swept } from "../../acts/erasure/eraseOwner.js";
import { ownerFile } from "../dataOut/ownerFile.js";
import { SHEET_NAMES, SHEETS, type SheetName } from "../dataOut/sheets.js";
import { csvStream } from "../dataOut/stream.js";
import { ALWAYS, json, problems } from "../doors/answers.js";
import { apiDoor } from "../doors/api.js";
import { router } from "../doors/router.js";
import { refused } from "./change.js";

export const dataOut = router();
const tags = ["shop"];
const params = z.strictObject({ id: z.string().min(1).max(100) });
const missing = { detail: "There is no such owner." };

dataOut.openapi(
  createRoute({
    method: "get",
    path: "/api/csv/{name}",
    tags,
    operationId: "exportTable",
    summary: "Every record of one noun as CSV (RFC 4180, UTF-8); texts that a spreadsheet would run have an apostrophe in front",
    request: { params: z.strictObject({ name: z.enum(SHEET_NAMES as [SheetName, ...SheetName[]]) }) },
    responses: {
      200: { description: "CSV", content: { "text/csv": { schema: { type: "string" as const } } } },
      ...problems("query refused", "role wanted", ...ALWAYS),
    },
  }),
  (c) => {
    const { name } = c.req.valid("param");
    return c.body(csvStream(SHEETS[name], c.var.db), 200, {
      "content-type": "text/csv; charset=utf-8; header=present",
      "content-disposition": `attachment; filename="${name}.csv"`,
      "cache-control": "no-store",
    }) as never;
  },
);

const record = z.looseObject({ id: z.string() }).meta({ additionalProperties: true });

dataOut.openapi(
  createRoute({
    method: "get",
    path: "/api/owners/{id}/file",
    tags: ["owners"],
    operationId: "exportOwner",
    summary: "Everything that is held about one owner",
    request: { params },
    responses: {
      200: json(
        z.strictObject({
          format: z.literal("ohmwright owner"),
          version: z.literal(1),
          madeAt: z.string(),
          owner: record,
          units: z.array(record),
          jobs: z.array(record),
        }),
        "The owner, units, jobs with their revisions, answers, links, questions, work, photos and events",
      ),
      ...problems("not found", "query refused", "role wanted", ...ALWAYS),
    },
  }),
  async (c) => {
    const { id } = c.req.valid("param");
    const found = await ownerFile(c.var.db, id, c.var.clock().toISOString());
    if (!found) return refused(c, "not found", missing);
    return c.json(found as never, 200, {
      "content-disposition": 'attachment; filename="owner.json"',
      "cache-control": "no-store",
    }) as never;
  },
);

apiDoor(dataOut, eraseOwner, {
  ...{ path: "/api/owners/{id}/erasure", tag: "owners", status: 200, refusals: ["not found"] },
  description: "The counts are of what the owner had",
  example: { by: "Wilhelmina Stråhle" },
  on: ({ id }) => ({ owner: id }),
  after: (c, { owner }) => swept(c.var, owner),
});
