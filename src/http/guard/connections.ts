/** Bounds what opened connections cost: one place holds so many, and of more the one that has waited longest without a request gives way. */
import type { IncomingMessage, Server, ServerResponse } from "node:http";
import type { BlockList, Socket } from "node:net";
import { placeOf, plainAddress } from "./place.js";

/** A browser opens six (common practice, no source). */
export const CONNECTIONS_OF_A_PLACE = 100;
const CONNECTIONS = 2000;

/** For `serverOptions`, milliseconds: a head must have come by then, and a whole request, the longest a backup. */
export const PATIENCE = { headersTimeout: 10_000, requestTimeout: 300_000, connectionsCheckingInterval: 1000 };

/** Trusted hops speak for many, and are held to the whole only. */
export function boundConnections(server: Server, hops: BlockList | undefined): void {
  const places = new Map<string, Set<Socket>>();
  const busy = new Set<Socket>();
  server.maxConnections = CONNECTIONS;
  server.on("connection", (socket: Socket) => {
    const address = plainAddress(socket.remoteAddress ?? "");
    if (hops?.check(address, address.includes(":") ? "ipv6" : "ipv4")) return;
    const place = placeOf(address);
    const held = places.get(place) ?? new Set();
    places.set(place, held.add(socket));
    socket.once("close", () => {
      held.delete(socket);
      busy.delete(socket);
      if (held.size === 0 && places.get(place) === held) places.delete(place);
    });
    if (held.size > CONNECTIONS_OF_A_PLACE) ([...held].find((each) => !busy.has(each)) ?? socket).destroy();
  });
  server.on("request", ({ socket }: IncomingMessage, answer: ServerResponse) => {
    busy.add(socket);
    answer.once("close", () => busy.delete(socket));
  });
}
