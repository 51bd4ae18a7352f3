/** Rate books: PUT adds the next version; every version stays to be read. */
import { createRoute, z } from "@hono/zod-openapi";
import { faultsIn } from "../../acts/checked.js";
import { rateBook } from "../../acts/shapes/rateBook.js";
import { keptRateBook } from "../../acts/shapes/resources.js";
import type { RateBook } from "../../estimating/input.js";
import { type KeptRateBook, rateBooks as records } from "../../records/rateBooks.js";
import { ALWAYS, json, problems } from "./answers.js";
import { refused } from "./change.js";
import { resource } from "./resource.js";

type Value = Omit<RateBook, "id" | "version">;

const { id: _id, version: _version, ...keys } = rateBook.shape;

export const rateBooks = resource<Value, KeptRateBook>({
  path: "/api/rate-books",
  one: "rate book",
  many: "rate books",
  value: z.strictObject(keys),
  kept: keptRateBook,
  list: records.list,
  find: records.find,
  add: (db, id, value, at) => records.add(db, { ...value, id, version: 1 }, at),
  replace: (db, id, version, value, at) => records.replace(db, id, version, { ...value, id, version }, at),
  check: async (_db, value) => faultsIn({}, { ...value, id: "new", version: 1 }, "/rateBook"),
});

rateBooks.openapi(
  createRoute({
    method: "get",
    path: "/api/rate-books/{id}/versions/{version}",
    tags: ["rate books"],
    operationId: "findRateBookVersion",
    summary: "One version of a rate book",
    request: {
      params: z.strictObject({ id: z.string().min(1).max(100), version: z.coerce.number().int().min(1).max(1_000_000) }),
    },
    responses: { 200: json(keptRateBook, "That version"), ...problems("not found", "query refused", ...ALWAYS) },
  }),
  async (c) => {
    const { id, version } = c.req.valid("param");
    const found = await records.findVersion(c.var.db, id, version);
    return found ? (c.json(found as never, 200) as never) : refused(c, "not found", { detail: "There is no such version." });
  },
);
