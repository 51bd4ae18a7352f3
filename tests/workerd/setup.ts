/** Before the edge's tests: a demo shop in a local file, served as libSQL, and what Node makes of the demo inputs. */
import { createHash } from "node:crypto";
import { copyFile, mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { TestProject } from "vitest/node";
import { estimate } from "../../src/estimating/estimate.js";
import type { EstimateInput } from "../../src/estimating/input.js";
import { neverMore } from "../../src/estimating/sheet/terms.js";
import { connectFile } from "../../src/records/connectFile.js";
import { build } from "../../src/tools/build.js";
import { fillOnce } from "../../src/tools/firstShop.js";
import { startEndpoint } from "../../src/tools/libsqlEndpoint.js";
import { migrateDatabase } from "../../src/tools/migrateDatabase.js";

declare module "vitest" {
  export interface ProvidedContext {
    readonly libsqlUrl: string;
    /** A shop of its own for the tests that make accounts: from then on the other's secret would open nothing. */
    readonly peopledUrl: string;
    /** Migrated, and no shop yet. */
    readonly emptyUrl: string;
    /** Input, and the SHA-256 of the JSON text of its sheet and its promise, as Node has it. */
    readonly inputs: readonly { readonly name: string; readonly input: EstimateInput; readonly sheet: string }[];
  }
}

const NAMES = ["string-organ-keyboard", "tape-echo", "valve-amplifier", "plain-counts"];

export default async function setup(project: TestProject): Promise<(() => Promise<void>) | undefined> {
  if (!project.vitest.projects.some(({ name }) => name === "workerd")) return undefined;
  await build();
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-edge-test-"));
  const { db, close } = await connectFile(`file:${folder}/shop.db`);
  await migrateDatabase(db);
  await db.run("PRAGMA wal_checkpoint(TRUNCATE)");
  await copyFile(`${folder}/shop.db`, `${folder}/empty.db`);
  await fillOnce(db, "demo", new Date("2026-11-25T09:00:00.000Z"));
  await db.run("PRAGMA wal_checkpoint(TRUNCATE)");
  close();
  await copyFile(`${folder}/shop.db`, `${folder}/peopled.db`);
  const endpoint = await startEndpoint(`${folder}/shop.db`);
  const peopled = await startEndpoint(`${folder}/peopled.db`);
  const empty = await startEndpoint(`${folder}/empty.db`);
  project.provide("peopledUrl", peopled.url);
  project.provide("emptyUrl", empty.url);
  project.provide("libsqlUrl", endpoint.url);
  project.provide("inputs", await Promise.all(NAMES.map(priced)));
  return async () => {
    await endpoint.stop();
    await peopled.stop();
    await empty.stop();
    await rm(folder, { recursive: true });
  };
}

async function priced(name: string) {
  const input = JSON.parse(await readFile(`fixtures/demo/${name}.json`, "utf8")) as EstimateInput;
  const outcome = estimate(input);
  if (!outcome.ok) throw new Error(`${name} has problems.`);
  return {
    name,
    input,
    sheet: createHash("sha256")
      .update(JSON.stringify({ sheet: outcome.sheet, neverMore: neverMore(outcome.sheet) }))
      .digest("hex"),
  };
}
