/** The whole shop out, and into a database without one: for the edge, where no command reaches the tables. */
import { createRoute, z } from "@hono/zod-openapi";
import { backupLines } from "../../records/backup/dump.js";
import { type Restored, restore } from "../../records/backup/restore.js";
import { spooled } from "../../records/backup/spool.js";
import { zipped } from "../../records/backup/zip.js";
import { intoStore, photoFiles } from "../../records/photoFiles.js";
import { restoreRefused } from "../dataOut/backupText.js";
import { ALWAYS, json, problems } from "../doors/answers.js";
import { router } from "../doors/router.js";
import { refused } from "./change.js";

export const backup = router();
const tags = ["shop"];
const GZIP = "application/gzip";
/** Bytes: a longer body goes through where photos are kept, and without that place none is taken that is longer than half a Worker. */
const [IN_MEMORY, WITHOUT_PLACE] = [8 * 2 ** 20, 64 * 2 ** 20];
const TOO_LONG = "Without a place for photos at most 64 MiB are taken here; `npm run restore` takes any length.";

backup.openapi(
  createRoute({
    method: "get",
    path: "/api/backup",
    tags,
    operationId: "backUpShop",
    summary: "Everything on record, in one file that POST /api/restore and npm run restore read",
    responses: {
      200: {
        description:
          "gzip of lines of JSON, the last with the hash of all before, of the shop as it stood at one moment; over a hosted database broken off where the shop is written to meanwhile",
        content: { [GZIP]: { schema: { type: "string" as const, format: "binary" } } },
      },
      ...problems("role wanted", ...ALWAYS),
    },
  }),
  (c) => {
    const now = c.var.clock().toISOString();
    const { db, photos } = c.var;
    return c.body(zipped(backupLines(db, now, async (at) => (photos ? photoFiles(at, photos) : []))), 200, {
      "content-type": GZIP,
      "content-disposition": `attachment; filename="ohmwright-${now.slice(0, 10)}.backup.gz"`,
      "cache-control": "no-store",
    }) as never;
  },
);

backup.openapi(
  createRoute({
    method: "post",
    path: "/api/restore",
    tags,
    operationId: "restoreShop",
    summary: "Put a backup into a database that was migrated and never filled; all of it or nothing",
    request: { body: { required: true, content: { [GZIP]: { schema: z.string().meta({ format: "binary" }) } } } },
    responses: {
      200: json(z.strictObject({ madeAt: z.string(), rows: z.int() }), "Restored; nobody stays signed in"),
      ...problems(
        "role wanted",
        "shop there",
        "backup unreadable",
        "backup newer",
        "backup older",
        "media type unsupported",
        "body too large",
        "other site",
        ...ALWAYS,
      ),
    },
  }),
  async (c) => {
    const { db, photos } = c.var;
    const body = c.var.body();
    const length = Number(c.req.header("content-length") ?? 0);
    if (photos && body && length > IN_MEMORY) {
      const { source, gone } = await spooled(body, photos);
      return answered(await restore(db, source, intoStore(photos)).finally(gone));
    }
    if (length > WITHOUT_PLACE) return refused(c, "body too large", { detail: TOO_LONG });
    const bytes = new Blob(body ? [await new Response(body).arrayBuffer()] : []);
    return answered(await restore(db, () => bytes.stream() as ReadableStream<Uint8Array>, intoStore(photos)));

    function answered(done: Restored) {
      if (done.is !== "restored") return refused(c, ...restoreRefused(done));
      return c.json({ madeAt: done.head.madeAt, rows: done.rows }, 200) as never;
    }
  },
);
