import { type ChildProcess, spawn } from "node:child_process";
import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { connectFile } from "../../src/records/connectFile.js";
import { newStaff, staffTable } from "../../src/records/staff.js";
import { open } from "../../src/tools/start/open.js";
import { readOptions } from "../../src/tools/start/options.js";
import { migratedFile } from "../http/support/madeOnce.js";

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

    const secret = "a secret long enough";
    const second = start(["--port", "0", "--empty"], { OHMWRIGHT_DATA: data, OHMWRIGHT_SECRET: secret });
    const again = await second.url;
    expect(second.said()).toContain("holds a shop already");
    const kept = new URL(added.headers.get("location")!, again);
    expect((await fetch(kept)).status).toBe(401);
    expect((await fetch(kept, { headers: { authorization: `Bearer ${secret}` } })).status).toBe(200);
    expect(second.said()).not.toContain(secret);
    await expect.poll(second.said).toContain("Sign in with OHMWRIGHT_SECRET until someone has an account.");
    second.process.kill("SIGINT");
    expect(await second.left).toBe(0);

    const { db, close } = await connectFile(`file:${data}/ohmwright.db`);
    const at = "2026-11-25T09:00:00.000Z";
    await db.insert(staffTable).values({ ...newStaff("ines", "Ines", "manager", at), joinedAt: at });
    close();
    const third = start(["--port", "0"], { OHMWRIGHT_DATA: data, OHMWRIGHT_SECRET: secret });
    await third.url;
    await expect.poll(third.said).toContain("Browsers keep the sign-in only over HTTPS");
    expect(third.said()).not.toContain("Sign in with OHMWRIGHT_SECRET");
  });

  it("killed while it makes the first shop leaves none, and the next start makes all of it", async () => {
    const data = await folder();
    const killed = start(["--port", "0", "--data", data]);
    await expect.poll(() => readdir(data), { timeout: 60_000, interval: 5 }).not.toEqual([]);
    killed.process.kill("SIGKILL");
    await killed.left;
    expect(await readdir(data)).toEqual([expect.stringMatching(/^\.filling-/)]);
    const again = await opened(["--port", "0", "--data", data]);
    expect([again.shop.is, again.said]).toEqual(["open", expect.stringContaining("an empty shop was made")]);
  });

  it("says at once what is wrong or how it is used", async () => {
    const [help, wrong] = [start(["-h"]), start(["--emtpy"])];
    expect([await help.left, await wrong.left]).toEqual([0, 1]);
    expect(help.said()).toContain("npm start -- --empty");
    expect(wrong.said()).toContain("--emtpy");
  });
});

/** The same within this process. */
async function opened(words: readonly string[], env: NodeJS.ProcessEnv = {}) {
  const options = readOptions(["--empty", "--data", await folder(), ...words], env);
  if (options.is !== "start") throw new Error(JSON.stringify(options));
  const said: string[] = [];
  const shop = await open(options.start, (text) => said.push(text));
  if (shop.is === "open") onTestFinished(shop.stop);
  return { shop, said: said.join("\n") };
}

describe("a shop that was asked for", () => {
  it("starts empty, with a rate book to begin from, and keeps its secret to itself on an address others reach", async () => {
    const secret = "a secret long enough";
    const { shop, said } = await opened(["--port", "0", "--host", "0.0.0.0"], { OHMWRIGHT_SECRET: secret });
    if (shop.is !== "open") throw new Error(shop.why);
    expect(said).toContain("an empty shop was made");
    expect(said).not.toContain(secret);
    const { port } = new URL(shop.url);
    const ask = (noun: string, headers: Record<string, string> = { authorization: `Bearer ${secret}` }) =>
      fetch(`http://127.0.0.1:${port}/api/${noun}`, { headers });
    const count = async (noun: string) => ((await (await ask(noun)).json()) as { items: unknown[] }).items.length;
    expect((await ask("owners", {})).status).toBe(401);
    expect([await count("owners"), await count("jobs"), await count("models"), await count("rate-books")]).toEqual([0, 0, 0, 1]);
  });

  it("holds a streamed body to its limit on the wire, and goes on serving; its port is then in use, and nothing is written for another shop on it", async () => {
    const { shop } = await opened(["--port", "0"]);
    if (shop.is !== "open") throw new Error(shop.why);
    const { url } = shop;
    const chunk = new TextEncoder().encode(`"${"x".repeat(65_534)}"`);
    const body = () => {
      let sent = 0;
      return new ReadableStream({
        pull(controller) {
          if (++sent > 64) return controller.close();
          controller.enqueue(chunk);
        },
      });
    };
    // Each next one goes behind the refused body, on its connection.
    for (const accept of ["application/json", "text/html", "application/json"]) {
      const init = {
        method: "POST",
        body: body(),
        duplex: "half",
        headers: { "content-type": "application/json" },
      } as RequestInit;
      expect(await fetch(`${url}api/estimate`, init).then((response) => response.status)).toBe(413);
      expect((await fetch(`${url}health`)).status).toBe(200);
      expect((await fetch(url, { headers: { accept } })).status).toBe(200);
    }

    const { port } = new URL(url);
    const untouched = await folder();
    const second = await opened(["--port", port, "--data", untouched]);
    expect(await readdir(untouched)).toEqual([]);
    expect(second.shop).toEqual({ is: "refused", why: `Port ${port} is in use; give another with --port.`, code: 1 });
  });

  it("says in a sentence that the file is no database, and leaves it as it is", async () => {
    const kept = await folder();
    const bytes = "somebody's notes, under another name";
    await writeFile(join(kept, "ohmwright.db"), bytes);
    const { shop } = await opened(["--port", "0", "--data", kept]);
    expect(shop).toMatchObject({ is: "refused", why: expect.stringContaining("it is no database"), code: 1 });
    expect(await readFile(join(kept, "ohmwright.db"), "utf8")).toBe(bytes);
  });

  it("says in a sentence that the file was cut short or its beginning overwritten, and makes no other shop of it", async () => {
    const { path } = await migratedFile();
    const whole = await readFile(path);
    const unknown = Buffer.from(whole);
    unknown[47] = 5; // no schema format that SQLite knows
    const cases = [
      whole.subarray(0, 0),
      whole.subarray(0, 1),
      whole.subarray(0, 4096),
      whole.subarray(0, -100),
      whole.subarray(0, -4096),
      unknown,
    ];
    for (const bytes of cases) {
      const kept = await folder();
      await writeFile(join(kept, "ohmwright.db"), bytes);
      const { shop } = await opened(["--port", "0", "--data", kept]);
      const why = bytes === unknown ? "its beginning was overwritten" : "it is damaged, such as cut short";
      expect(shop).toMatchObject({ is: "refused", why: expect.stringContaining(why), code: 1 });
      expect((await readFile(join(kept, "ohmwright.db"))).equals(bytes)).toBe(true);
    }
  });

  it("says in a sentence that the file cannot be opened", async () => {
    const kept = await folder();
    // Whoever runs the tests as root may read any file.
    await mkdir(join(kept, "ohmwright.db"));
    const { shop } = await opened(["--port", "0", "--data", kept]);
    expect(shop).toMatchObject({ is: "refused", why: expect.stringContaining("it cannot be opened; look at who may"), code: 1 });
  });
});
