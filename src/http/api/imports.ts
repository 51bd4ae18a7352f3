/** CSV into the records through the API: a dry run unless it is to be carried out, and then all of it or nothing. */
import { createRoute, z } from "@hono/zod-openapi";
import type { Fault } from "../../acts/fault.js";
import { ident, maybe } from "../../acts/shapes/primitives.js";
import { fromBase64 } from "../../records/backup/format.js";
import { decode } from "../dataIn/decode.js";
import { carryOut, IMPORTS, readImport } from "../dataIn/importFile.js";
import { isSound } from "../dataIn/report.js";
import { ALWAYS, json, ON_BODY, problems } from "./answers.js";
import { refused } from "./change.js";
import { once } from "./once.js";
import { router } from "./router.js";

export const imports = router();

const body = z.strictObject({
  text: maybe(z.string()).meta({ description: "The file as text; or give `base64`" }),
  base64: maybe(z.base64()).meta({ description: "The bytes of the file; their encoding is found out and said" }),
  fields: maybe(z.record(z.string().max(100), z.string().max(500))).meta({
    description: "Field to heading; otherwise as remembered or by name",
  }),
  types: maybe(z.record(z.string().max(100), ident)).meta({ description: "Of a parts list: group to part type" }),
  mark: maybe(z.enum([".", ","])),
  model: maybe(ident).meta({ description: "Of a parts list" }),
  assembly: maybe(ident).meta({ description: "Of a parts list" }),
  addKinds: maybe(z.boolean()),
  carryOut: maybe(z.boolean()).meta({ description: "Absent or false: a dry run" }),
});

const answer = z
  .strictObject({
    encoding: z.string(),
    delimiter: z.enum([",", ";", "\t"]),
    headings: z.array(z.string()),
    mapping: z
      .strictObject({
        fields: z.record(z.string(), z.string()),
        types: z.record(z.string(), z.string()),
        mark: z.enum([".", ","]),
      })
      .meta({ id: "ImportMapping" }),
    rows: z.array(
      z
        .strictObject({
          row: z.int(),
          is: z.enum(["new", "changed", "same", "counted", "left out", "wrong"]),
          name: z.string(),
          faults: z.array(z.strictObject({ column: maybe(z.string()), why: z.string() })),
        })
        .meta({ id: "ImportRow" }),
    ),
    written: z.int().meta({ description: "Records written; 0 in a dry run" }),
  })
  .meta({ id: "ImportReport" });

imports.openapi(
  createRoute({
    method: "post",
    path: "/api/imports/{what}",
    tags: ["shop"],
    operationId: "importTable",
    summary: "Read CSV of part kinds, of offers, or a parts list for the counts of an assembly; write it all or nothing",
    middleware: once,
    request: {
      params: z.strictObject({ what: z.enum(IMPORTS) }),
      headers: z.object({ "idempotency-key": z.string().optional() }),
      body: { required: true, content: { "application/json": { schema: body } } },
    },
    responses: {
      200: json(answer, "What each row is; nothing was written unless `written` says so"),
      ...problems(
        "query refused",
        "version moved",
        "header refused",
        "idempotency key in flight",
        "idempotency key reused",
        ...ON_BODY,
        ...ALWAYS,
      ),
    },
  }),
  async (c) => {
    const { what } = c.req.valid("param");
    const { text, base64, fields, types, mark, carryOut: really, ...where } = c.req.valid("json");
    const file = base64 === undefined ? { ok: true as const, text: text ?? "", encoding: "text" } : decode(fromBase64(base64));
    const fault = (pointer: string, name: string, detail: string): Fault => ({ pointer, name, detail });
    if (!file.ok) return refused(c, "input refused", { errors: [fault("/base64", "encoding unreadable", file.why)] });
    const chosen = { ...(fields && { fields }), ...(types && { types }), ...(mark && { mark }) };
    const now = c.var.clock();
    const read = await readImport(c.var.db, { what, file, chosen, ...where }, now);
    if (read.is === "nowhere")
      return refused(c, "input refused", { errors: [fault(`/${read.field}`, "record unknown", read.why)] });
    const at = base64 === undefined ? "/text" : "/base64";
    if (read.is === "unreadable")
      return refused(c, "input refused", {
        errors: read.faults.map(({ row, why }) => fault(at, "row refused", `Row ${row}: ${why}`)),
      });
    const { encoding, table, mapping, report } = read;
    if (really && !isSound(report)) {
      const errors = report.rows.flatMap(({ row, faults }) =>
        faults.map(({ column, why }) =>
          fault(at, "row refused", `Row ${row}${column === undefined ? "" : `, ${column}`}: ${why}.`),
        ),
      );
      return refused(c, "input refused", { errors });
    }
    if (really && (await carryOut(c.var.db, what, read, now)) === "moved")
      return refused(c, "version moved", {
        detail: "One of these records was changed meanwhile; nothing was written. Send it again.",
      });
    const { delimiter, headings } = table;
    return c.json(
      {
        encoding,
        delimiter,
        headings: [...headings],
        mapping,
        rows: report.rows,
        written: really ? report.changes.length : 0,
      } as never,
      200,
    ) as never;
  },
);
