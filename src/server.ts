/** Node's entry: the app over a local file database. */
import type { Server } from "node:http";
import type { BlockList } from "node:net";
import { type HttpBindings, serve } from "@hono/node-server";
import { assets } from "../.built/assets.js";
import { createApp } from "./http/app/app.js";
import { boundConnections, PATIENCE } from "./http/guard/connections.js";
import { pinned } from "./http/guard/pinned.js";
import { callerBehind } from "./http/guard/proxy.js";
import { refuseAddress } from "./http/guard/secret.js";
import { asStream } from "./records/backup/zip.js";
import type { Database } from "./records/database.js";
import type { PhotoStore } from "./records/photoStore.js";

export interface ServerOptions {
  readonly db: Database;
  readonly host: string;
  /** 0: any free port. */
  readonly port: number;
  readonly secret: string | undefined;
  /** Where owners reach this server, when that is not where it listens; asked at each request where it is known once it listens. */
  readonly origin?: string | (() => string) | undefined;
  /** The proxies that are trusted to say whom they speak for; absent: who opens the connection is the caller. */
  readonly proxies?: BlockList | undefined;
  /** Hosts on this machine or the network behind it that the send hook may call; absent: this machine, where no secret is set. */
  readonly hookHosts?: readonly string[] | undefined;
  /** Where photos are kept; without it, all but photos works. */
  readonly photos?: PhotoStore | undefined;
  readonly write?: (line: string) => void;
}

/** Resolves when it listens. A secret that is set is wanted on loopback too, until someone has an account. */
export function startServer({
  db,
  host,
  port,
  secret,
  origin,
  proxies,
  hookHosts,
  photos,
  write,
}: ServerOptions): Promise<{ readonly url: string; readonly stop: () => Promise<void> }> {
  const refusal = refuseAddress(host, secret);
  if (refusal) return Promise.reject(new Error(refusal));
  const app = createApp({
    openDatabase: () => db,
    openPhotos: () => photos,
    // Node's own stream of a body reads it all before anyone takes it.
    bodyOf: (c) => {
      const { incoming } = (c.env ?? {}) as Partial<HttpBindings>;
      return incoming && asStream(incoming[Symbol.asyncIterator]());
    },
    assets,
    guard: secret === undefined ? "loopback" : "secret",
    secretOf: () => secret,
    originOf: () => (typeof origin === "function" ? origin() : origin),
    ...(hookHosts && { hookHostsOf: () => hookHosts }),
    callOut: pinned(),
    addressOf: (c) =>
      callerBehind(
        proxies,
        (c.env as unknown as HttpBindings).incoming?.socket.remoteAddress ?? "",
        c.req.header("x-forwarded-for"),
      ),
    ...(write && { write }),
  });
  return new Promise((resolve, reject) => {
    const fetch: typeof app.fetch = (request, env, context) => {
      unread(env as unknown as HttpBindings);
      return app.fetch(request, env, context);
    };
    const server = serve({ fetch, hostname: host, port, serverOptions: PATIENCE }, (info) => {
      const name = info.family === "IPv6" ? `[${info.address}]` : info.address;
      resolve({ url: `http://${name}:${info.port}/`, stop: () => stop(server as Server) });
    });
    boundConnections(server as Server, proxies);
    server.on("error", reject);
  });
}

/**
 * Who was refused before the whole body was taken sends the rest, and the next request behind it. The adapter lets the rest go by, but
 * whoever began to read and stopped holds it up; then it closes the connection, and with it that next request.
 */
function unread({ incoming, outgoing }: HttpBindings): void {
  outgoing.once("finish", () => {
    if (!incoming.readableEnded) for (const taken of ["data", "readable"]) incoming.removeAllListeners(taken);
  });
}

/** Lets running requests end, for five seconds at most. */
function stop(server: Server): Promise<void> {
  return new Promise((resolve) => {
    const late = setTimeout(() => server.closeAllConnections(), 5000);
    server.close(() => {
      clearTimeout(late);
      resolve();
    });
    server.closeIdleConnections();
  });
}
