import { type ChildProcess, spawn } from "node:child_process";
import { mkdtemp, rm } from "node:fs/promises";
import { type AddressInfo, createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";

interface Run {
  readonly process: ChildProcess;
  readonly said: () => string;
  /** Resolves with the address once it listens, rejects when it leaves first. */
  readonly url: Promise<string>;
  readonly left: Promise<number | null>;
}

/** What `npm start -- ...` runs. */
function start(args: readonly string[], env: NodeJS.ProcessEnv = {}): Run {
  const child = spawn(process.execPath, ["--import", "tsx", "src/tools/start.ts", ...args], { env: { ...process.env, ...env } });
  onTestFinished(() => {
    child.kill("SIGKILL");
  });
  let said = "";
  const left = new Promise<number | null>((resolve) => child.on("exit", resolve));
  const url = new Promise<string>((resolve, reject) => {
    const hear = (chunk: Buffer) => {
      said += chunk;
      const at = /Ohmwright is at (http:\S+)/.exec(said)?.[1];
      if (at) resolve(at);
    };
    child.stdout.on("data", hear);
    child.stderr.on("data", hear);
    left.then(() => reject(new Error(said)));
  });
  url.catch(() => undefined);
  return { process: child, said: () => said, url, left };
}

async function folder(): Promise<string> {
  const made = await mkdtemp(join(tmpdir(), "ohmwright-start-"));
  onTestFinished(() => rm(made, { recursive: true, force: true }));
  return made;
}

describe("npm start", () => {
  it("loads the demo shop into an empty folder and says so, keeps what is added, and stops when asked", async () => {
    const data = join(await folder(), "not", "there", "yet");
    const first = start(["--port", "0", "--data", data]);
    const url = await first.url;
    expect(first.said()).toContain("the demo shop was loaded");
    expect(url).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/$/);
    expect((await fetch(url, { headers: { accept: "text/html" } })).status).toBe(200);
    const added = await fetch(`${url}api/owners`, {
      method: "POST",
      body: '{"name":"Ottilie"}',
      headers: { "content-type": "application/json" },
    });
    expect(added.status).toBe(201);
    first.process.kill("SIGTERM");
    expect(await first.left).toBe(0);

    const second = start(["--port", "0", "--empty"], { OHMWRIGHT_DATA: data });
    const again = await second.url;
    expect(second.said()).toContain("holds a shop already");
    expect((await fetch(new URL(added.headers.get("location")!, again))).status).toBe(200);
    second.process.kill("SIGINT");
    expect(await second.left).toBe(0);
  });

  it("starts an empty shop when asked, with a rate book to begin from", async () => {
    const run = start(["--port", "0", "--empty", "--data", await folder()]);
    const url = await run.url;
    expect(run.said()).toContain("an empty shop was made");
    const count = async (noun: string) =>
      ((await (await fetch(`${url}api/${noun}`)).json()) as { items: unknown[] }).items.length;
    expect([await count("owners"), await count("jobs"), await count("models"), await count("rate-books")]).toEqual([0, 0, 0, 1]);
    expect((await fetch(url, { headers: { accept: "text/html" } })).status).toBe(200);
  });

  it("holds a streamed body to its limit on the wire, and goes on serving", async () => {
    const run = start(["--port", "0", "--empty", "--data", await folder()]);
    const url = await run.url;
    const chunk = new TextEncoder().encode(`"${"x".repeat(65_534)}"`);
    let sent = 0;
    const body = new ReadableStream({
      pull(controller) {
        if (++sent > 64) return controller.close();
        controller.enqueue(chunk);
      },
    });
    const init = { method: "POST", body, duplex: "half", headers: { "content-type": "application/json" } } as RequestInit;
    const status = await fetch(`${url}api/estimate`, init).then((response) => response.status);
    expect(status).toBe(413);
    expect((await fetch(`${url}health`)).status).toBe(200);
  });

  it("refuses to serve another address without a secret", async () => {
    const run = start(["--port", "0", "--host", "0.0.0.0", "--data", await folder()]);
    expect(await run.left).toBe(1);
    expect(run.said()).toContain("OHMWRIGHT_SECRET");
  });

  it("serves another address with a secret, and then wants it", async () => {
    const secret = "a secret long enough";
    const run = start(["--port", "0", "--host", "0.0.0.0", "--empty", "--data", await folder()], { OHMWRIGHT_SECRET: secret });
    const { port } = new URL(await run.url);
    const ask = (headers: Record<string, string>) =>
      fetch(`http://127.0.0.1:${port}/api/owners`, { headers }).then(({ status }) => status);
    expect(await ask({})).toBe(401);
    expect(await ask({ authorization: `Bearer ${secret}` })).toBe(200);
    expect(run.said()).not.toContain(secret);
  });

  it.each(["shop.example", "https://shop.example/", "https://shop.example/estimates", "ftp://shop.example"])(
    "refuses %s as the address owners reach it at: only scheme and host will do",
    async (origin) => {
      const run = start(["--port", "0", "--empty", "--data", await folder()], { OHMWRIGHT_ORIGIN: origin });
      expect(await run.left).toBe(1);
      expect(run.said()).toContain(`OHMWRIGHT_ORIGIN is '${origin}'`);
    },
  );

  it("says which port is in use", async () => {
    const taken = createServer().listen(0, "127.0.0.1");
    await new Promise((resolve) => taken.once("listening", resolve));
    onTestFinished(() => {
      taken.close();
    });
    const { port } = taken.address() as AddressInfo;
    const run = start(["--port", String(port), "--empty", "--data", await folder()]);
    expect(await run.left).toBe(1);
    expect(run.said()).toContain(`Port ${port} is in use`);
  });

  it("explains itself, and does not guess", async () => {
    const help = start(["-h"]);
    expect(await help.left).toBe(0);
    expect(help.said()).toContain("npm start -- --empty");
    for (const args of [["--emtpy"], ["--port", "x"]]) {
      const run = start(args);
      expect(await run.left).toBe(1);
      expect(run.said()).toContain(args[0]!);
    }
  });
});
