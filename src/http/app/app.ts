/** The whole app. What differs between Node and the edge comes in through the options; everything else is the same code. */

import { type Context, Hono } from "hono";
import type { Database } from "../../records/database.js";
import type { PhotoStore } from "../../records/photoStore.js";
import type { Cost } from "../../records/secrets.js";
import { api } from "../api/index.js";
import type { AppEnv, Assets, Bindings } from "../bindings.js";
import { bodyLimits } from "../guard/bodyLimits.js";
import { byFetch, type CallOut, calledOut } from "../guard/callOut.js";
import { gate } from "../guard/gate.js";
import { securityHeaders } from "../guard/headers.js";
import { loopbackHost, opensElsewhere } from "../guard/host.js";
import { mediaType } from "../guard/mediaType.js";
import { ownSite } from "../guard/ownSite.js";
import { placeOf } from "../guard/place.js";
import { route } from "../guard/route.js";
import { callerName, signingKeyOf } from "../guard/secret.js";
import { owner } from "../owner/index.js";
import { failure } from "../problems/failure.js";
import { refuse } from "../problems/refuse.js";
import { site } from "../site/index.js";
import { people } from "../staff/index.js";
import { withoutRow } from "../who.js";
import { asset } from "./asset.js";
import { health } from "./health.js";
import { log } from "./log.js";

export interface AppOptions {
  readonly openDatabase: (bindings: Bindings) => Database | undefined;
  /** Where the bytes of photos are kept; undefined: nowhere yet, and all but photos works. */
  readonly openPhotos?: (bindings: Bindings) => PhotoStore | undefined;
  /** The body as a stream that does not run ahead; absent: the request's own. */
  readonly bodyOf?: (c: Context<AppEnv>) => ReadableStream<Uint8Array> | undefined;
  readonly assets: Assets;
  /** 'loopback': answers only to a loopback name, and to everyone there until someone has an account. 'secret': wants the shop's secret until then. */
  readonly guard: "loopback" | "secret";
  readonly secretOf: (bindings: Bindings) => string | undefined;
  /** Where a request came from: wrong secrets are counted by it. */
  readonly addressOf: (c: Context<AppEnv>) => string;
  /** Where owners reach the shop, which they do; otherwise where the request came in, unless only this machine opens that. */
  readonly originOf?: (bindings: Bindings) => string | undefined;
  /** Hosts of this machine and the network behind it that the send hook may call; absent: this machine, where nobody else reaches the shop. */
  readonly hookHostsOf?: (bindings: Bindings) => readonly string[];
  /** How the send hook is called, where what its name leads to can be looked at; otherwise by fetch. */
  readonly callOut?: CallOut;
  /** Lower in tests, which sign in hundreds of times. */
  readonly passphraseCost?: Cost | undefined;
  readonly clock?: () => Date;
  readonly write?: (line: string) => void;
}

const HERE = ["localhost", "127.0.0.1", "[::1]"];

export function createApp(options: AppOptions): Hono<AppEnv> {
  const { assets, guard, secretOf, addressOf, originOf, clock = () => new Date(), write = console.log } = options;
  const app = new Hono<AppEnv>();
  app.onError(failure);

  app.use(async (c, next) => {
    c.set("requestId", crypto.randomUUID());
    c.set("clock", clock);
    c.set("body", () => options.bodyOf?.(c) ?? c.req.raw.body);
    c.set("guarded", guard === "secret");
    c.set("reachable", guard === "secret");
    if (options.passphraseCost) c.set("passphraseCost", options.passphraseCost);
    c.set("assets", assets);
    const named = options.hookHostsOf?.(c.env) ?? (guard === "loopback" ? HERE : []);
    c.set("callHook", (...call) => calledOut(options.callOut ?? byFetch, named, ...call));
    const [told, here] = [originOf?.(c.env), new URL(c.req.url).origin];
    c.set("origin", told ?? here);
    if (told !== undefined || opensElsewhere(here)) c.set("publicOrigin", told ?? here);
    c.set("address", addressOf(c));
    c.set("signingKey", () => signingKeyOf(c, secretOf(c.env)));
    c.set("caller", async (purpose) => callerName(`${purpose}:${placeOf(c.var.address)}`, await c.var.signingKey()));
    await next();
  });
  app.use(log(write), securityHeaders);
  if (guard === "loopback") app.use(loopbackHost);
  app.use(route(app.routes, assets), mediaType, ownSite, bodyLimits);
  app.use(async (c, next) => {
    if (c.var.right?.who === "everyone") return next();
    const db = options.openDatabase(c.env);
    if (!db)
      return refuse(c, "database missing", { detail: "Set LIBSQL_URL, and LIBSQL_AUTH_TOKEN where one is wanted (README)." });
    c.set("db", db);
    const photos = options.openPhotos?.(c.env);
    if (photos) c.set("photos", photos);
    return next();
  });
  app.use(gate(secretOf));

  app.get("/health", health(options.openDatabase, options.openPhotos));
  for (const [path, made] of Object.entries(assets)) app.get(path, (c) => asset(c, made));
  app.route("/", api);
  app.route("/", owner);
  app.route("/", people(secretOf));
  app.route("/", site);

  app.notFound((c) => refuse(c, "not found"));
  const unheld = withoutRow(app.routes.filter(({ path }) => !Object.hasOwn(assets, path)));
  if (unheld.length > 0) throw new Error(`No row in http/who.ts says who may: ${unheld.join(", ")}.`);
  return app;
}
