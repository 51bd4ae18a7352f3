/** npm run size: what each environment of the edge would be sent, gzipped, without sending it. Fails above our own budget, and where wrangler refuses. */
import { spawn } from "node:child_process";
import { mkdtemp, readdir, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { build } from "./build.js";
import { wrangler } from "./wrangler.js";

const BUDGET = 890_000;
const ENVIRONMENTS = ["production", "staging"];

await build();
const out = await mkdtemp(join(tmpdir(), "ohmwright-size-"));
const sizes = await Promise.all(ENVIRONMENTS.map(sizeOf));
await rm(out, { recursive: true });
ENVIRONMENTS.forEach((name, index) => {
  process.stdout.write(`Gzipped for ${name}: ${sizes[index]} bytes of ${BUDGET} allowed.\n`);
});
process.exit(sizes.every((bytes) => bytes !== undefined && bytes <= BUDGET) ? 0 : 1);

/** undefined when wrangler refuses; it says why. */
async function sizeOf(environment: string): Promise<number | undefined> {
  const folder = join(out, environment);
  const { path, env } = wrangler();
  const args = [path, "deploy", "--dry-run", "--env", environment, "--outdir", folder];
  const status = await new Promise((done) => spawn(process.execPath, args, { stdio: "inherit", env }).on("close", done));
  if (status !== 0) return undefined;
  const files = (await readdir(folder)).filter((name) => !name.endsWith(".map") && name !== "README.md");
  const sent = await Promise.all(files.map(async (name) => gzipSync(await readFile(join(folder, name))).length));
  return sent.reduce((a, b) => a + b, 0);
}
