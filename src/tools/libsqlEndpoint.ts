/**
 * Development only, loopback only: a local file served over the libSQL HTTP protocol (Hrana 2, JSON), so that the edge build can
 * run on this machine. A stream is one connection, told apart by its baton.
 * Protocol: github.com/tursodatabase/libsql, docs/HRANA_2_SPEC.md (from memory).
 */
import { randomUUID } from "node:crypto";
import { createServer, type IncomingMessage } from "node:http";
import type { AddressInfo } from "node:net";
import { Stream } from "./libsqlStream.js";

export interface Endpoint {
  readonly url: string;
  readonly stop: () => Promise<void>;
}

/** A stream nobody has used for this long is rolled back, as a hosted database does. */
const IDLE = 10_000;

/** `path` is a database file; `port` 0 takes any free one. */
export function startEndpoint(path: string, port = 0): Promise<Endpoint> {
  const streams = new Map<string, { readonly stream: Stream; readonly idle: NodeJS.Timeout }>();
  const forget = (baton: string) => {
    const held = streams.get(baton);
    streams.delete(baton);
    clearTimeout(held?.idle);
    return held?.stream;
  };

  const server = createServer(async (request, response) => {
    const reply = (status: number, body: unknown) => {
      response.writeHead(status, { "content-type": "application/json" }).end(JSON.stringify(body));
    };
    if (request.method === "GET" && request.url === "/v2") return reply(200, {});
    if (request.method !== "POST" || request.url !== "/v2/pipeline") return reply(404, { message: "Not here." });
    const asked = await read(request)
      .then(JSON.parse)
      .catch(() => undefined);
    if (!asked) return reply(400, { message: "Not JSON." });
    const { baton, requests } = asked;
    const stream = typeof baton === "string" ? forget(baton) : new Stream(path);
    if (!stream) return reply(400, { message: "No such stream.", code: "STREAM_EXPIRED" });
    const results = requests.map((wanted: unknown) => stream.answer(wanted));
    if (!stream.open) return reply(200, { baton: null, base_url: null, results });
    const next = randomUUID();
    streams.set(next, { stream, idle: setTimeout(() => forget(next)?.close(), IDLE) });
    return reply(200, { baton: next, base_url: null, results });
  });

  // Node's five seconds would end a connection that a busy process is about to use again.
  server.keepAliveTimeout = 60_000;
  return new Promise((resolve, reject) => {
    server.on("error", reject);
    server.listen(port, "127.0.0.1", () => {
      resolve({
        url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
        stop: () =>
          new Promise((stopped) => {
            for (const baton of [...streams.keys()]) forget(baton)?.close();
            server.close(() => stopped());
            server.closeAllConnections();
          }),
      });
    });
  });
}

async function read(request: IncomingMessage): Promise<string> {
  const chunks: Buffer[] = [];
  for await (const chunk of request) chunks.push(chunk as Buffer);
  return Buffer.concat(chunks).toString("utf8");
}
