/** Reference: the library standardwebhooks 1.1.1 checks each call as the shop's program would (Standard Webhooks 1.0). */
import { createServer, type IncomingMessage } from "node:http";
import type { AddressInfo } from "node:net";
import { createServer as createTlsServer } from "node:tls";
import { Webhook } from "standardwebhooks";
import { describe, expect, it, onTestFinished, vi } from "vitest";
import { addressFault } from "../../../src/acts/sendHook.js";
import { byFetch, calledOut, Inside } from "../../../src/http/guard/callOut.js";
import { isInside } from "../../../src/http/guard/inside.js";
import { pinned } from "../../../src/http/guard/pinned.js";
import { signature } from "../../../src/http/sending/send.js";
import { words } from "../support/noScript.js";
import { HAND, linkOn, story } from "../support/story.js";

interface Call {
  readonly headers: IncomingMessage["headers"];
  readonly body: string;
}

/** The shop's own program, on this machine. */
async function program(status: number, headers: Record<string, string> = {}, at = "127.0.0.1") {
  const calls: Call[] = [];
  const server = createServer((request, response) => {
    let body = "";
    request.setEncoding("utf8").on("data", (part: string) => {
      body += part;
    });
    request.on("end", () => {
      calls.push({ headers: request.headers, body });
      response.writeHead(status, headers).end();
    });
  });
  await new Promise<void>((ready) => server.listen(0, at, ready));
  onTestFinished(() => void server.close());
  return { url: `http://${at}:${(server.address() as AddressInfo).port}/send`, calls };
}

/** A name server: what the name leads to each time it is asked, the last from then on. */
function leading(answers: readonly (readonly string[])[]) {
  const ask = (_: string, __: object, found: (error: Error | null, addresses: { address: string; family: number }[]) => void) => {
    const addresses = answers[Math.min(ask.asked, answers.length - 1)]!;
    ask.asked += 1;
    const error = addresses.length > 0 ? null : Object.assign(new Error("EAI_AGAIN"), { syscall: "getaddrinfo" });
    found(
      error,
      addresses.map((address) => ({ address, family: 4 })),
    );
  };
  ask.asked = 0;
  return ask;
}

/** A shop with its hook set to the program; gives the secret as the page showed it. */
async function hooked(status: number, headers?: Record<string, string>) {
  const told = await story();
  const { url, calls } = await program(status, headers);
  const saved = await told.desk.press(await told.desk.get("/settings/sending"), "Save", { url });
  const [secret] = /whsec_[A-Za-z0-9+/=]+/.exec(saved.html)!;
  return { told, calls, secret };
}

const verified = (
  secret: string,
  { headers, body }: Call,
): { type: string; data: { readonly link?: string; readonly text?: string } } => {
  const named = headers as Record<string, string>;
  // The library judges the time by its own clock; the shop's stands still.
  vi.spyOn(Date, "now").mockReturnValue(Number(named["webhook-timestamp"]) * 1000);
  try {
    return new Webhook(secret).verify(body, named) as never;
  } finally {
    vi.restoreAllMocks();
  }
};

describe("the shop's send hook", () => {
  it("gives the message with the link to the shop's program, signed, and says so", async () => {
    const { told, calls, secret } = await hooked(204);
    const page = await told.desk.get(`${told.job}/issue`);
    expect(page.html).toContain('name="send"');
    const issued = await told.desk.press(page, "Issue revision 1", { by: HAND, deliveredTo: "owner@example.org", send: ["yes"] });
    const { fragment, code } = linkOn(issued);
    expect(words(issued.html)).toContain("Your program took it, for owner@example.org.");
    expect(calls).toHaveLength(1);
    const { type, data } = verified(secret, calls[0]!);
    expect(type).toBe("estimate");
    expect(data).toMatchObject({ to: "owner@example.org", job: { revision: 1 } });
    expect(data.link).toContain(fragment);
    expect(data.text).toContain(code);
    const attempts = words((await told.desk.get("/settings/sending")).html);
    expect(attempts).toContain("taken (204)");
    expect(attempts).not.toContain("owner@example.org");
  });

  it("says at once when the program did not take it, and leaves the link to be sent by hand", async () => {
    const { told } = await hooked(503);
    const page = await told.desk.get(`${told.job}/issue`);
    const issued = await told.desk.press(page, "Issue revision 1", { by: HAND, deliveredTo: "owner@example.org", send: ["yes"] });
    expect(words(issued.html)).toContain("It was not sent: your program did not take it, it answered 503.");
    expect(issued.html).toContain("mailto:");
  });

  it("does not follow an answer that points elsewhere", async () => {
    const elsewhere = await program(200);
    const { told } = await hooked(307, { location: elsewhere.url });
    const test = await told.desk.press(await told.desk.get("/settings/sending"), "Send a test");
    expect(test.status).toBe(422);
    expect(elsewhere.calls).toEqual([]);
  });

  it("sends nothing that was not ticked, nothing when switched off, and takes a new secret", async () => {
    const { told, calls, secret } = await hooked(200);
    const page = await told.desk.get(`${told.job}/issue`);
    await told.desk.press(page, "Issue revision 1", { by: HAND, deliveredTo: "owner@example.org", send: [] });
    expect(calls).toEqual([]);
    const renewed = await told.desk.press(await told.desk.get("/settings/sending"), "Save", { renew: ["yes"] });
    const [next] = /whsec_[A-Za-z0-9+/=]+/.exec(renewed.html)!;
    expect(next).not.toBe(secret);
    await told.desk.press(await told.desk.get("/settings/sending"), "Send a test");
    expect(() => verified(secret, calls[0]!)).toThrow();
    expect(verified(next, calls[0]!).type).toBe("test");
    await told.desk.press(await told.desk.get("/settings/sending"), "Save", { url: "" });
    expect((await told.desk.get(`${told.job}/links`)).html).not.toContain('name="send"');
  });

  it("names what is wrong with an address, and keeps what was typed", async () => {
    const told = await story();
    const page = await told.desk.press(await told.desk.get("/settings/sending"), "Save", { url: "http://mail.example/send" });
    expect(page.status).toBe(422);
    expect(page.html).toContain('value="http://mail.example/send"');
    for (const typed of ["mail", "ftp://x.example", "https://a:b@x.example", "https://x.example/#f"])
      expect(addressFault(typed)).toBeTruthy();
    for (const typed of ["https://x.example/send?to=1", "http://localhost:9/x"]) expect(addressFault(typed)).toBeUndefined();
  });

  it("is set and tried by a program too, whose test is sent once under its key, and tells its secret once", async () => {
    const { url, calls } = await program(204);
    const { opened } = await story();
    const found = await opened.call("/api/send-hook");
    expect([found.headers.get("etag"), await found.json()]).toEqual(['"0"', { version: 0 }]);
    const put = (value: object, tag: string) => opened.send("PUT", "/api/send-hook", value, { "if-match": tag });
    expect((await put({ url: "http://mail.example/send" }, '"0"')).status).toBe(422);
    const set = (await (await put({ url }, '"0"')).json()) as { secret: string };
    expect(set).toMatchObject({ url, version: 1, secret: expect.stringMatching(/^whsec_/) });
    expect((await put({ url }, '"0"')).status).toBe(412);
    expect(await (await opened.call("/api/send-hook")).json()).toEqual({ url, version: 1 });
    const tests = [1, 2].map(() => opened.send("POST", "/api/send-hook/test", {}, { "idempotency-key": "one" }));
    for (const test of [await tests[0]!, await tests[1]!]) expect(await test.json()).toEqual({ is: "sent" });
    expect(calls.length).toBeGreaterThan(0);
    expect(verified(set.secret, calls[0]!).type).toBe("test");
    const { items } = (await (await opened.call("/api/send-hook/attempts")).json()) as { items: unknown[] };
    expect(items).toMatchObject([{ status: 204 }]);
    expect(await (await put({}, '"1"')).json()).toEqual({ version: 2 });
    expect(await (await opened.send("POST", "/api/send-hook/test", {})).json()).toEqual({ is: "off" });
  });

  it("signs the example of the standard as the standard's library does", async () => {
    const secret = "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw";
    const body = '{"test": 2432232314}';
    const at = new Date(1_614_265_330_000);
    expect(await signature(secret, "msg_p5jXN8AQM9LWM0D4loKWxJek", 1_614_265_330, body)).toBe(
      new Webhook(secret).sign("msg_p5jXN8AQM9LWM0D4loKWxJek", at, body),
    );
  });
});

describe("a send hook that points inside", () => {
  it("knows this machine and the networks behind it, however they are written", () => {
    const host = (address: string) => new URL(`http://${address}/`).hostname;
    for (const inside of [
      ...["127.0.0.1", "127.1", "2130706433", "0x7f.1", "017700000001", "localhost", "shop.localhost", "printer.local"],
      ...["10.1.2.3", "172.16.0.1", "172.31.255.255", "192.168.1.1", "169.254.169.254", "100.64.0.1", "0.0.0.0", "224.0.0.1"],
      ...["[::1]", "[::]", "[::ffff:10.0.0.1]", "[::ffff:7f00:1]", "[fd00::1]", "[fe80::1]", "[64:ff9b::a00:1]", "localhost."],
      ...["[::127.0.0.1]", "[2002:7f00:1::]", "[::ffff:0:127.0.0.1]", "[fec0::1]", "192.0.0.8", "198.18.0.1"],
    ])
      expect(isInside(host(inside)), inside).toBe(true);
    for (const outside of [
      "198.51.100.7",
      "192.0.64.1",
      "198.20.0.1",
      "172.32.0.1",
      "100.128.0.1",
      "mail.example",
      "local.example",
      "[2001:db8::1]",
    ])
      expect(isInside(host(outside)), outside).toBe(false);
  });

  it("knows them as a look-up answers them too", () => {
    for (const inside of ["10.0.0.9", "::1", "::ffff:10.0.0.1", "::127.0.0.1", "fe80::1%eth0", "64:ff9b:1::7f00:1", "FD00::1"])
      expect(isInside(inside), inside).toBe(true);
    for (const outside of ["198.51.100.7", "2001:db8::1", "::ffff:198.51.100.7"]) expect(isInside(outside), outside).toBe(false);
  });

  it("is called there only where it was named, whatever its name leads to", async () => {
    const { url, calls } = await program(204);
    const named = url.replace("127.0.0.1", "hook.example");
    const to = (addresses: readonly string[], hosts: readonly string[] = []) =>
      calledOut(pinned(leading([addresses])), hosts, named, {}, "");
    expect((await to(["127.0.0.1"])).why).toContain("OHMWRIGHT_HOOK_HOSTS");
    expect((await to(["198.51.100.7", "127.0.0.1"])).why).toContain("OHMWRIGHT_HOOK_HOSTS");
    expect((await calledOut(pinned(), [], url, {}, "")).why).toContain("OHMWRIGHT_HOOK_HOSTS");
    expect(calls).toHaveLength(0);
    const { host } = new URL(named);
    for (const name of ["hook.example", host]) expect(await to(["127.0.0.1"], [name])).toEqual({ status: 204 });
    expect((await to(["127.0.0.1"], ["hook.example:1"])).why).toContain("OHMWRIGHT_HOOK_HOSTS");
    expect(calls.map(({ headers }) => headers.host)).toEqual([host, host]);
    expect((await to([])).why).toBe("its name cannot be looked up");
  });

  it("is called at the addresses that were looked at, when its name leads elsewhere a moment later", async () => {
    const [checked, elsewhere] = [await program(204), await program(204, {}, "127.0.0.2")];
    const name = checked.url.replace("127.0.0.1", "hook.example");
    // What would be an outside address: tests send to this machine only.
    const outside = (address: string) => address === "127.0.0.1";
    const changing = leading([["127.0.0.1"], ["127.0.0.2"]]);
    const sent = { headers: { "webhook-id": "1" }, body: "hello", signal: AbortSignal.timeout(5000) };
    expect(await pinned(changing)(name, sent, outside)).toBe(204);
    expect(checked.calls).toMatchObject([{ headers: { host: new URL(name).host, "webhook-id": "1" }, body: "hello" }]);
    expect(changing.asked).toBe(1);
    await expect(pinned(changing)(name, sent, outside)).rejects.toThrow(Inside);
    expect([checked.calls.length, elsewhere.calls.length]).toEqual([1, 0]);
  });

  it("is asked over TLS by its name, not by the address", async () => {
    const asked: string[] = [];
    const server = createTlsServer({
      SNICallback: (name, done) => {
        asked.push(name);
        done(new Error("no certificate"));
      },
    });
    await new Promise<void>((ready) => server.listen(0, "127.0.0.1", ready));
    onTestFinished(() => void server.close());
    const { port } = server.address() as AddressInfo;
    const called = await calledOut(pinned(leading([["127.0.0.1"]])), ["hook.example"], `https://hook.example:${port}/`, {}, "");
    expect([called, asked]).toEqual([{ why: "it cannot be reached" }, ["hook.example"]]);
  });

  it("that never answers is given up", async () => {
    const never = createServer(() => undefined);
    await new Promise<void>((ready) => never.listen(0, "127.0.0.1", ready));
    onTestFinished(() => void never.close());
    const url = `http://127.0.0.1:${(never.address() as AddressInfo).port}/`;
    vi.spyOn(AbortSignal, "timeout").mockReturnValue(AbortSignal.abort());
    onTestFinished(() => void vi.restoreAllMocks());
    for (const over of [pinned(), byFetch])
      expect(await calledOut(over, ["127.0.0.1"], url, {}, "")).toEqual({ why: "it did not answer within 5 seconds" });
  });

  it("is not called by a shop that others reach, and the page says who can allow it", async () => {
    const told = await story(0, { hookHostsOf: () => [] });
    const { url, calls } = await program(204);
    const page = await told.desk.press(await told.desk.get("/settings/sending"), "Save", { url });
    const tried = await told.desk.press(page, /test/i);
    expect(words(tried.html)).toContain("OHMWRIGHT_HOOK_HOSTS");
    expect(calls).toHaveLength(0);
  });
});
