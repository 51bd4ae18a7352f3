/** Addresses whose changes are for managers alone. Routes may also ask for themselves, with `needs("manager")`. */
import type { MiddlewareHandler } from "hono";
import type { AppEnv } from "../bindings.js";
import { needs } from "./role.js";

/** Everything under these: who may come in. */
const WHOLLY = /^\/(staff|tokens)(\/|$)/;
/** Changes under these: the shop itself, and its prices. */
const CHANGES = /^(\/api)?\/(settings|rate-books?)(\/|$)/;
const LOOKING = new Set(["GET", "HEAD", "OPTIONS"]);

const asManager = needs("manager");

export const ownerOnly: MiddlewareHandler<AppEnv> = (c, next) =>
  WHOLLY.test(c.req.path) || (CHANGES.test(c.req.path) && !LOOKING.has(c.req.method)) ? asManager(c, next) : next();
