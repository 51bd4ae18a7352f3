/**
 * The shop by HTTP beside raw node:http that sends as many bytes: the same run, the same client, each server a process of its own. What a
 * request takes is processor time of the server's process, which other work on the machine moves less than requests a second.
 */
import { type ChildProcess, fork } from "node:child_process";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { Agent, type IncomingHttpHeaders, type OutgoingHttpHeaders, request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "esbuild";
import { DEMO_JOB } from "../../../src/http/site/ownerLinks.js";
import { connectFile } from "../../../src/records/connectFile.js";
import { fillOnce } from "../../../src/tools/firstShop.js";
import { migrateDatabase } from "../../../src/tools/migrateDatabase.js";

export interface Asked {
  readonly name: string;
  readonly path: string;
  readonly method?: "GET" | "POST";
  readonly headers?: OutgoingHttpHeaders;
  readonly body?: string;
}

export interface Beside {
  readonly name: string;
  readonly bytes: number;
  /** Requests a second, and processor time of one, in ms. */
  readonly shop: Taken;
  readonly raw: Taken;
}

interface Taken {
  readonly rate: number;
  readonly cpu: number;
}

interface Served {
  readonly url: string;
  readonly cpuMs: () => Promise<number>;
  readonly stop: () => void;
}

const AT_ONCE = 4;
const LOTS = 3;
const agent = new Agent({ keepAlive: true, maxSockets: AT_ONCE });

/** `times` is how often each is asked in a lot; the quickest of three lots counts. */
export async function besideRaw(times: number): Promise<Beside[]> {
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-bench-"));
  try {
    const { db, close } = await connectFile(`file:${folder}/ohmwright.db`);
    await migrateDatabase(db);
    await fillOnce(db, "year", new Date());
    close();
    const [shop, raw] = await Promise.all([served(folder), served()]);
    try {
      const rows: Beside[] = [];
      for (const asked of await whatIsAsked(shop.url)) rows.push(await beside(asked, shop, raw, times));
      return rows;
    } finally {
      shop.stop();
      raw.stop();
    }
  } finally {
    agent.destroy();
    await rm(folder, { recursive: true });
  }
}

async function beside(asked: Asked, shop: Served, raw: Served, times: number): Promise<Beside> {
  const { status, bytes } = await send(shop.url, asked);
  if (status !== 200) throw new Error(`${asked.name}: ${status}`);
  const same = { ...asked, path: `/${bytes}` };
  await lot(shop, asked, Math.max(20, times / 4));
  await lot(raw, same, 500);
  const [ours, theirs]: [Taken[], Taken[]] = [[], []];
  for (let left = LOTS; left > 0; left -= 1) {
    ours.push(await lot(shop, asked, times));
    theirs.push(await lot(raw, same, 1000));
  }
  return { name: asked.name, bytes, shop: best(ours), raw: best(theirs) };
}

const best = (lots: readonly Taken[]): Taken => ({
  rate: Math.max(...lots.map(({ rate }) => rate)),
  cpu: Math.min(...lots.map(({ cpu }) => cpu)),
});

async function lot(server: Served, asked: Asked, times: number): Promise<Taken> {
  const [cpu, began] = [await server.cpuMs(), performance.now()];
  let left = times;
  const one = async (): Promise<void> => {
    while (left-- > 0) await send(server.url, asked);
  };
  await Promise.all(Array.from({ length: AT_ONCE }, one));
  return { rate: (1000 * times) / (performance.now() - began), cpu: ((await server.cpuMs()) - cpu) / times };
}

interface Answer {
  readonly status: number;
  readonly bytes: number;
  readonly headers: IncomingHttpHeaders;
}

function send(url: string, { path, method = "GET", headers = {}, body }: Asked): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const sent = request(new URL(path, url), { method, agent, headers: { accept: "text/html", ...headers } }, (answer) => {
      let bytes = 0;
      answer.on("data", (chunk: Buffer) => {
        bytes += chunk.length;
      });
      answer.on("end", () => resolve({ status: answer.statusCode!, bytes, headers: answer.headers }));
    });
    sent.on("error", reject);
    sent.end(body);
  });
}

/** Of the demo shop after its year. */
async function whatIsAsked(url: string): Promise<Asked[]> {
  const origin = new URL(url).origin;
  const { headers } = await send(url, { name: "", path: "/demo/owners-page", method: "POST", headers: { origin } });
  const cookie = headers["set-cookie"]!.map((line) => line.split(";")[0]).join("; ");
  const tape = await readFile("fixtures/demo/tape-echo.json", "utf8");
  const { jobs } = JSON.parse(await readFile("fixtures/demo/shop.json", "utf8")) as {
    readonly jobs: readonly { readonly id: string }[];
  };
  const [first] = jobs;
  return [
    { name: "health", path: "/health" },
    { name: "start page", path: "/" },
    { name: "job page, with its owner", path: `/jobs/${DEMO_JOB}` },
    { name: "job page, largest", path: `/jobs/${first!.id}` },
    { name: "bench page", path: `/jobs/${DEMO_JOB}/bench` },
    { name: "new estimate", path: "/estimates/new" },
    { name: "owner's page", path: "/o/estimate", headers: { cookie } },
    {
      name: "POST /api/estimate",
      path: "/api/estimate",
      method: "POST",
      headers: { accept: "application/json", "content-type": "application/json" },
      body: tape,
    },
  ];
}

async function served(folder?: string): Promise<Served> {
  const outfile = ".built/bench/server.mjs";
  await build({
    entryPoints: ["tests/bench/http/server.ts"],
    outfile,
    ...{ bundle: true, platform: "node", format: "esm", packages: "external", jsx: "automatic", jsxImportSource: "hono/jsx" },
  });
  const child = fork(outfile, folder ? [folder] : []);
  const url = (await told(child)) as string;
  return {
    url,
    cpuMs: async () => {
      const answer = told(child);
      child.send("cpu");
      const { user, system } = (await answer) as NodeJS.CpuUsage;
      return (user + system) / 1000;
    },
    stop: () => child.disconnect(),
  };
}

const told = (child: ChildProcess): Promise<unknown> =>
  new Promise((resolve, reject) => {
    const left = () => reject(new Error("A server of the bench left."));
    child.once("exit", left);
    child.once("message", (message) => {
      child.off("exit", left);
      resolve(message);
    });
  });
