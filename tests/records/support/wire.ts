/** Between a shop and its hosted database: passes on to the development endpoint, late, cut off, by halves, or not at all. */
import { createServer, request as send } from "node:http";
import type { AddressInfo } from "node:net";
import { setTimeout as pause } from "node:timers/promises";
import { startEndpoint } from "../../../src/tools/libsqlEndpoint.js";

/** What may happen to a request, and whether the database has carried it out by then. */
export const MISHAPS = {
  "cut off once it is done": { carriedOut: true },
  "half of the answer, then cut off": { carriedOut: true },
  "half of the answer, as if it were whole": { carriedOut: true },
  "an empty answer": { carriedOut: true },
  "a 502 once it is done": { carriedOut: true },
  "a 500": { carriedOut: false },
  "a 503 of a page": { carriedOut: false },
  "a 429": { carriedOut: false },
  "a 401": { carriedOut: false },
  "a 404": { carriedOut: false },
  "a 200 of a page": { carriedOut: false },
  "sent elsewhere by 307": { carriedOut: false },
  "sent elsewhere by 302": { carriedOut: false },
  "a stream that has expired": { carriedOut: false },
  "cut off before it is done": { carriedOut: false },
  "no answer": { carriedOut: false },
} as const;
export type Mishap = keyof typeof MISHAPS;

export interface Wire {
  /** Milliseconds that each request takes longer. */
  delay: number;
  /** Of the requests that come next; undefined: passed on as it is. */
  readonly next: (Mishap | undefined)[];
  arrived: number;
}

const PAGE = "<!doctype html><title>Gateway</title><p>The upstream server is on holiday.</p>";

export async function throughWire(path: string) {
  const endpoint = await startEndpoint(path);
  const wire: Wire = { delay: 0, next: [], arrived: 0 };
  const proxy = createServer(async (request, response) => {
    wire.arrived += 1;
    const mishap = wire.next.shift();
    const chunks: Buffer[] = [];
    for await (const chunk of request) chunks.push(chunk as Buffer);
    if (wire.delay > 0) await pause(wire.delay);
    const say = (status: number, body: string, headers: Record<string, string> = {}) =>
      void response.writeHead(status, { "content-type": "text/html", ...headers }).end(body);
    const [status] = /\b[2-5]\d\d\b/.exec(mishap ?? "") ?? [];
    if (mishap === "no answer") return;
    if (mishap === "cut off before it is done") return void request.socket.destroy();
    if (mishap?.startsWith("sent elsewhere")) return say(Number(status), "", { location: `${endpoint.url}${request.url}` });
    if (mishap === "a stream that has expired")
      return say(400, '{"message":"The stream has expired due to inactivity","code":"STREAM_EXPIRED"}', {
        "content-type": "application/json",
      });
    if (mishap && status && !MISHAPS[mishap].carriedOut) return say(Number(status), PAGE);

    const on = send(`${endpoint.url}${request.url}`, { method: request.method, headers: request.headers }, async (answer) => {
      const parts: Buffer[] = [];
      for await (const part of answer) parts.push(part as Buffer);
      const body = Buffer.concat(parts);
      const half = body.subarray(0, Math.floor(body.length / 2));
      const head = (length: number) => ({ "content-type": "application/json", "content-length": String(length) });
      if (mishap === "cut off once it is done") return void request.socket.destroy();
      if (mishap === "half of the answer, then cut off") {
        response.writeHead(200, head(body.length)).write(half, () => request.socket.destroy());
        return;
      }
      if (mishap === "half of the answer, as if it were whole") return void response.writeHead(200, head(half.length)).end(half);
      if (mishap === "an empty answer") return void response.writeHead(200, head(0)).end();
      if (mishap === "a 502 once it is done") return say(502, PAGE);
      response.writeHead(answer.statusCode!, answer.headers).end(body);
    });
    on.end(Buffer.concat(chunks));
  });
  await new Promise<void>((resolve) => proxy.listen(0, "127.0.0.1", resolve));
  return {
    wire,
    url: `http://127.0.0.1:${(proxy.address() as AddressInfo).port}`,
    stop: async () => {
      proxy.closeAllConnections();
      proxy.close();
      await endpoint.stop();
    },
  };
}
