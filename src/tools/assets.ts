/** Bundles what browsers load: the stylesheet, the scripts of the pages that have one, the icon. Written to `.built/assets.ts`, by path. */
import { createHash } from "node:crypto";
import { mkdir, rename, writeFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const ROOT = fileURLToPath(new URL("../../", import.meta.url));

interface Made {
  readonly type: string;
  readonly body: string;
  readonly etag: string;
}

const ENTRIES = [
  { name: "intake", from: "src/pages/script/intake.ts", extension: "js", type: "text/javascript; charset=utf-8" },
  { name: "bench", from: "src/pages/script/bench.ts", extension: "js", type: "text/javascript; charset=utf-8" },
  { name: "copy", from: "src/pages/script/copy.ts", extension: "js", type: "text/javascript; charset=utf-8" },
  { name: "typing", from: "src/pages/script/typing.ts", extension: "js", type: "text/javascript; charset=utf-8" },
  { name: "rows", from: "src/pages/script/rows.ts", extension: "js", type: "text/javascript; charset=utf-8" },
  { name: "find", from: "src/pages/script/find.ts", extension: "js", type: "text/javascript; charset=utf-8" },
  { name: "modelMap", from: "src/pages/script/modelMap.ts", extension: "js", type: "text/javascript; charset=utf-8" },
  { name: "photos", from: "src/pages/script/photos.ts", extension: "js", type: "text/javascript; charset=utf-8" },
  { name: "owner", from: "src/pages/script/owner.ts", extension: "js", type: "text/javascript; charset=utf-8" },
  { name: "account", from: "src/pages/script/account.ts", extension: "js", type: "text/javascript; charset=utf-8" },
  { name: "style", from: "src/pages/style/style.css", extension: "css", type: "text/css; charset=utf-8" },
  { name: "icon", from: "src/pages/style/icon.svg", extension: "svg", type: "image/svg+xml" },
] as const;

/** A service worker governs what stands under its own address, so that never changes. */
const WORKERS = [{ path: "/bench-worker.js", from: "src/pages/script/benchWorker.ts" }] as const;

/** Paths carry a hash of the content, such as /assets/style-0f3c9a1b2d.css. Returns how many bytes each asset has. */
export async function buildAssets(): Promise<Readonly<Record<string, number>>> {
  const made: Record<string, Made> = {};
  for (const { name, from, extension, type } of ENTRIES) {
    const body = await bundle(from);
    const hash = createHash("sha256").update(body).digest("hex").slice(0, 10);
    made[`/assets/${name}-${hash}.${extension}`] = { type, body, etag: hash };
  }
  for (const { path, from } of WORKERS) {
    const body = await bundle(from);
    const etag = createHash("sha256").update(body).digest("hex").slice(0, 10);
    made[path] = { type: "text/javascript; charset=utf-8", body, etag };
  }
  await mkdir(`${ROOT}.built`, { recursive: true });
  // Whole or not at all: another process may be reading it.
  const [target, scratch] = [`${ROOT}.built/assets.ts`, `${ROOT}.built/assets.${process.pid}`];
  await writeFile(scratch, `export const assets = ${JSON.stringify(made, null, 1)};\n`);
  await rename(scratch, target);
  return Object.fromEntries(Object.entries(made).map(([path, { body }]) => [path, body.length]));
}

async function bundle(from: string): Promise<string> {
  const result = await build({
    absWorkingDir: ROOT,
    entryPoints: [from],
    bundle: true,
    minify: true,
    write: false,
    format: "esm",
    target: ["chrome111", "firefox121", "safari16.4"],
    platform: "browser",
    jsx: "automatic",
    jsxImportSource: "hono/jsx",
    loader: { ".svg": "copy" },
    legalComments: "none",
    outdir: ".built",
    logLevel: "warning",
  });
  return result.outputFiles.find(({ path }) => !path.endsWith(".map") && !(from.endsWith(".svg") && path.endsWith(".js")))!.text;
}
