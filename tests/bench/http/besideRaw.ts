/**
 * The shop by HTTP beside raw node:http that sends as many bytes: the same run, the same client, each server a process of its own. What a
 * request takes is processor time of the server's process, which other work on the machine moves less than requests a second.
 */
import { type ChildProcess, fork } from "node:child_process";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "esbuild";
import { connectFile } from "../../../src/records/connectFile.js";
import { fillOnce } from "../../../src/tools/firstShop.js";
import { migrateDatabase } from "../../../src/tools/migrateDatabase.js";
import { type Asked, hungUp, ownersCookie, send, whatIsAsked } from "./asked.js";

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
      for (const asked of await whatIsAsked(await ownersCookie(shop.url))) rows.push(await beside(asked, shop, raw, times));
      return rows;
    } finally {
      shop.stop();
      raw.stop();
    }
  } finally {
    hungUp();
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

async function served(folder?: string): Promise<Served> {
  const outfile = ".built/bench/server.mjs";
  await build({
    entryPoints: ["tests/bench/http/server.ts"],
    outfile,
    ...{ bundle: true, platform: "node", format: "esm", packages: "external", jsx: "automatic", jsxImportSource: "#page" },
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
