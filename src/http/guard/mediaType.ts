/** What kind of body an address takes. A wrong one is told (415) before anyone asks where it comes from or who sent it. */
import type { MiddlewareHandler } from "hono";
import { PHOTO_TYPES } from "../../records/photos.js";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";
import { routeOf } from "./route.js";

const JSON_TYPE = ["application/json"];
const FORM = ["application/x-www-form-urlencoded"];
const FILES = ["multipart/form-data"];

/** All others: JSON from programs, forms from pages. */
const OWN: Readonly<Record<string, readonly string[]>> = {
  "/api/logos": ["image/png", "image/jpeg"],
  "/api/jobs/:id/photos": PHOTO_TYPES,
  "/api/restore": ["application/gzip"],
  "/data/in/:what": [...FILES, ...FORM],
  "/estimates/:id/lines": [...FILES, ...FORM],
  "/rate-book/:part": [...FILES, ...FORM],
  "/jobs/:id/photos": FILES,
  "/models/import": [...FILES, ...FORM],
  "/settings/logo": FILES,
};

export const takenBy = (path: string): readonly string[] => OWN[path] ?? (path.startsWith("/api/") ? JSON_TYPE : FORM);

/** A body of no named type is left to whoever reads it. */
export const mediaType: MiddlewareHandler<AppEnv> = async (c, next) => {
  const sent = c.req.header("content-type");
  const found = routeOf(c);
  if (sent === undefined || !found || found.method === "GET") return next();
  const taken = takenBy(found.path);
  if (taken.includes(sent.split(";")[0]!.trim().toLowerCase())) return next();
  const what = taken[0] === FORM[0] || taken[0] === FILES[0] ? "the form" : "the body";
  return refuse(c, "media type unsupported", { detail: `Send ${what} as ${taken.join(" or ")}.` });
};
