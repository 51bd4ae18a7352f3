/**
 * How much of a body is taken, by address. A body that says it is longer is refused before any of it is read; one that does not say
 * is read no further than the limit, and a backup then no further than the usual one: that is before anyone knows who sends it.
 */
import type { MiddlewareHandler } from "hono";
import { bodyLimit } from "hono/body-limit";
import { PHOTO_LIMITS } from "../../wording/photoRefusal.js";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";

const MIB = 1024 * 1024;
export const BODY_LIMIT = MIB;
export const IMPORT_LIMIT = 5 * MIB;
/** The page sends what was read back as a form, each line break as two characters, and the choices with it. */
const IMPORT_PAGE_LIMIT = 12 * MIB;
/** Taken in pieces; before that the gate asked who sends it. */
export const RESTORE_LIMIT = 16 * 1024 * MIB;

const limited = (maxSize: number): MiddlewareHandler<AppEnv> =>
  bodyLimit({
    maxSize,
    onError: (c) => refuse(c as never, "body too large", { detail: `At most ${maxSize / MIB} MiB are taken here.` }),
  });

/** One photo of the largest size allowed, or several smaller ones, and what the form says besides. */
const PHOTOS_LIMIT = PHOTO_LIMITS.bytes + MIB;

/** By what the head says alone: to look at the body is to begin reading it. */
const restoring: MiddlewareHandler<AppEnv> = (c, next) =>
  Number(c.req.header("content-length")) > RESTORE_LIMIT
    ? Promise.resolve(refuse(c as never, "body too large", { detail: `At most ${RESTORE_LIMIT / MIB} MiB are taken here.` }))
    : next();

const LIMITS: readonly (readonly [path: RegExp, limit: MiddlewareHandler<AppEnv>])[] = [
  [/^\/api\/restore$/, restoring],
  [/^(\/api)?\/jobs\/[^/]+\/photos$/, limited(PHOTOS_LIMIT)],
  [/^(\/data\/in\/[^/]+|\/estimates\/[^/]+\/lines)$/, limited(IMPORT_PAGE_LIMIT)],
  [/^(\/api\/imports|\/api\/estimates\/[^/]+\/lines$|\/data)(\/|$)/, limited(IMPORT_LIMIT)],
];
const usual = limited(BODY_LIMIT);

export const bodyLimits: MiddlewareHandler<AppEnv> = (c, next) => {
  // Nobody reads one, and the edge hands one over (RFC 9110, 9.3.1: it has no meaning).
  if (c.req.method === "GET" || c.req.method === "HEAD") return next();
  const own = LIMITS.find(([path]) => path.test(c.req.path))?.[1];
  const saysLength = c.req.header("content-length") !== undefined && c.req.header("transfer-encoding") === undefined;
  return (own === undefined || (own === restoring && !saysLength) ? usual : own)(c, next);
};
