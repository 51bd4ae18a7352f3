/** npm run size: what the edge would be sent, gzipped. Fails above our own budget. */
import { spawnSync } from "node:child_process";
import { mkdtemp, readdir, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { build } from "./build.js";
import { wrangler } from "./wrangler.js";

const BUDGET = 1_000_000;

await build();
const out = await mkdtemp(join(tmpdir(), "ohmwright-size-"));
const { path, env } = wrangler();
const { status } = spawnSync(process.execPath, [path, "deploy", "--dry-run", "--minify", "--outdir", out], {
  stdio: "inherit",
  env,
});
if (status !== 0) process.exit(1);
const files = (await readdir(out)).filter((name) => !name.endsWith(".map") && name !== "README.md");
const bytes = (await Promise.all(files.map(async (name) => gzipSync(await readFile(join(out, name))).length))).reduce(
  (a, b) => a + b,
  0,
);
await rm(out, { recursive: true });
process.stdout.write(`Gzipped: ${bytes} bytes of ${BUDGET} allowed.\n`);
process.exit(bytes > BUDGET ? 1 : 0);
