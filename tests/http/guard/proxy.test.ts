/** The real Node server behind a proxy, and under connections that say nothing. */
import { connect, type Socket } from "node:net";
import { describe, expect, it, onTestFinished, vi } from "vitest";
import { CONNECTIONS_OF_A_PLACE } from "../../../src/http/guard/connections.js";
import { callerBehind, hopsIn } from "../../../src/http/guard/proxy.js";
import { startServer } from "../../../src/server.js";
import { freshDatabase } from "../support/shop.js";

const SECRET = "a secret long enough";

describe("the caller", () => {
  const hops = hopsIn("127.0.0.1, 10.0.0.0/8, fd00::/8");
  it.each([
    ["192.0.2.1", "198.51.100.7", "192.0.2.1"],
    ["127.0.0.1", undefined, "127.0.0.1"],
    ["::ffff:127.0.0.1", "192.0.2.9", "192.0.2.9"],
    ["127.0.0.1", "198.51.100.7, 192.0.2.9, 10.1.2.3", "192.0.2.9"],
    ["127.0.0.1", "192.0.2.9, unknown", "127.0.0.1"],
    ["fd00::1", "2001:db8::5", "2001:db8::5"],
    ["127.0.0.1", "10.0.0.1", "10.0.0.1"],
  ])("of %s with '%s' is %s", (peer, forwarded, caller) => {
    expect(callerBehind(hops, peer, forwarded)).toBe(caller);
  });

  it("is whoever opens the connection where no proxy is named, whatever is sent", () => {
    expect(callerBehind(undefined, "127.0.0.1", "192.0.2.9")).toBe("127.0.0.1");
  });
});

async function served(proxies?: string) {
  const options = { host: "127.0.0.1", port: 0, secret: SECRET, write: () => undefined };
  const { url, stop } = await startServer({
    db: await freshDatabase(),
    ...options,
    proxies: proxies ? hopsIn(proxies) : undefined,
  });
  onTestFinished(stop);
  return url;
}

describe("the server", () => {
  it("counts guesses by the caller whom the trusted proxy names, so that one locks out no other", async () => {
    const asked = async (url: string, from: string, token: string) =>
      (await fetch(`${url}api/owners`, { headers: { authorization: `Bearer ${token}`, "x-forwarded-for": from } })).status;
    const behind = await served("127.0.0.1");
    for (let n = 0; n < 10; n += 1) expect(await asked(behind, "192.0.2.1", "wrong")).toBe(401);
    expect(await asked(behind, "192.0.2.1", SECRET)).toBe(429);
    expect(await asked(behind, "192.0.2.2", SECRET)).toBe(200);
    const without = await served();
    for (let n = 0; n < 10; n += 1) expect(await asked(without, `192.0.2.${n}`, "wrong")).toBe(401);
    expect(await asked(without, "192.0.2.99", SECRET)).toBe(429);
  });

  it("logs no fault of its own where whoever sends breaks off in the middle", async () => {
    const told = vi.spyOn(console, "error").mockReturnValue();
    onTestFinished(() => void told.mockRestore());
    const url = new URL(await served());
    for (const path of ["/api/owners", "/sign-in"]) {
      const type = path === "/sign-in" ? "application/x-www-form-urlencoded" : "application/json";
      const head = `POST ${path} HTTP/1.1\r\nHost: localhost\r\nAuthorization: Bearer ${SECRET}\r\nContent-Type: ${type}\r\n`;
      const socket = connect(Number(url.port), "127.0.0.1");
      socket.on("error", () => undefined);
      socket.write(`${head}Transfer-Encoding: chunked\r\n\r\n5\r\n{"nam`);
      await new Promise((resolve) => setTimeout(resolve, 200));
      socket.destroy();
    }
    await new Promise((resolve) => setTimeout(resolve, 300));
    expect((await fetch(`${url}health`)).status).toBe(200);
    expect(told.mock.calls).toEqual([]);
  });

  it("answers while one place holds 600 connections of one byte each, keeps no more of them than it may, and ends those in time", async () => {
    const url = new URL(await served());
    const open = new Set<Socket>();
    const sockets = Array.from({ length: 600 }, () => {
      const socket = connect(Number(url.port), "127.0.0.1", () => socket.write("G"));
      open.add(socket);
      socket.resume();
      socket.on("error", () => undefined);
      socket.on("close", () => open.delete(socket));
      return socket;
    });
    onTestFinished(() => {
      for (const socket of sockets) socket.destroy();
    });
    await expect.poll(() => open.size, { timeout: 10_000 }).toBeLessThanOrEqual(CONNECTIONS_OF_A_PLACE);
    const began = Date.now();
    expect((await fetch(`${url}sign-in`)).status).toBe(200);
    expect(Date.now() - began).toBeLessThan(5000);
    await expect.poll(() => open.size, { timeout: 20_000 }).toBe(0);
  });
});
