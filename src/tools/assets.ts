/** Bundles what browsers load: the stylesheet, the scripts of the pages that have one, the icon. Written to `.built/assets.ts`, by path, and for the edge as files under `.built/public`. */
import { createHash } from "node:crypto";
import { mkdir, readdir, readFile, rename, rm, writeFile } from "node:fs/promises";
import { dirname } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const ROOT = fileURLToPath(new URL("../../", import.meta.url));

interface Made {
  readonly type: string;
  readonly body: string | Buffer;
  readonly etag: string;
}

/** Of `.built/fonts/screen.json`. */
interface Face {
  readonly script: string;
  readonly weight: number;
  readonly range: string;
  readonly woff2: string;
}

const ENTRIES = [
  { name: "intake", from: "src/pages/script/intake.ts", extension: "js", type: "text/javascript; charset=utf-8" },
  { name: "bench", from: "src/pages/script/bench.ts", extension: "js", type: "text/javascript; charset=utf-8" },
  { name: "copy", from: "src/pages/script/copy.ts", extension: "js", type: "text/javascript; charset=utf-8" },
  { name: "typing", from: "src/pages/script/typing.ts", extension: "js", type: "text/javascript; charset=utf-8" },
  { name: "record", from: "src/pages/script/record.ts", extension: "js", type: "text/javascript; charset=utf-8" },
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
  const faces = await fonts(made);
  for (const { name, from, extension, type } of ENTRIES) {
    const body = await bundle(from);
    add(made, name, extension, type, name === "style" ? faces + body : body);
  }
  for (const { path, from } of WORKERS) {
    const body = await bundle(from);
    made[path] = { type: "text/javascript; charset=utf-8", body, etag: hashOf(body) };
  }
  await mkdir(`${ROOT}.built`, { recursive: true });
  await written("assets.ts", moduleOf(made));
  await written("assetNames.ts", namesOf(made));
  for (const [path, { body }] of Object.entries(made)) {
    await mkdir(dirname(`${ROOT}.built/public${path}`), { recursive: true });
    await written(`public${path}`, body);
  }
  for (const name of await readdir(`${ROOT}.built/public/assets`))
    if (!(`/assets/${name}` in made)) await rm(`${ROOT}.built/public/assets/${name}`, { force: true });
  return Object.fromEntries(Object.entries(made).map(([path, { body }]) => [path, body.length]));
}

/** Whole or not at all: another process may be reading it. */
async function written(name: string, body: string | Buffer): Promise<void> {
  const [target, scratch] = [`${ROOT}.built/${name}`, `${ROOT}.built/${name.replaceAll("/", "-")}.${process.pid}`];
  await writeFile(scratch, body);
  await rename(scratch, target);
}

const hashOf = (body: string | Buffer): string => createHash("sha256").update(body).digest("hex").slice(0, 10);

function add(made: Record<string, Made>, name: string, extension: string, type: string, body: string | Buffer): string {
  const etag = hashOf(body);
  const path = `/assets/${name}-${etag}.${extension}`;
  made[path] = { type, body, etag };
  return path;
}

/** The papers' typeface, its licence beside it. A page waits for none of them, and asks for a script only when it has a letter of it. */
async function fonts(made: Record<string, Made>): Promise<string> {
  const faces = JSON.parse(await readFile(`${ROOT}.built/fonts/screen.json`, "utf8")) as readonly Face[];
  add(made, "OFL", "txt", "text/plain; charset=utf-8", await readFile(`${ROOT}.built/fonts/OFL.txt`, "utf8"));
  return faces
    .map(({ script, weight, range, woff2 }) => {
      const path = add(made, `text-${script}-${weight}`, "woff2", "font/woff2", Buffer.from(woff2, "base64"));
      return `@font-face{font-family:"Ohmwright Text";font-weight:${weight};font-display:swap;src:url(${path}) format("woff2");unicode-range:${range}}`;
    })
    .join("");
}

/** Without the bodies: the edge keeps those beside the program, which stays small. */
const namesOf = (made: Readonly<Record<string, Made>>): string =>
  `export const assets: Readonly<Record<string, { readonly type: string; readonly etag: string }>> = ${JSON.stringify(
    Object.fromEntries(Object.entries(made).map(([path, { type, etag }]) => [path, { type, etag }])),
  )};\n`;

const moduleOf = (made: Readonly<Record<string, Made>>): string => {
  const bodyOf = (body: string | Buffer) =>
    typeof body === "string" ? JSON.stringify(body) : `bytes("${body.toString("base64")}")`;
  const entries = Object.entries(made).map(
    ([path, { type, body, etag }]) => `  "${path}": { type: "${type}", body: ${bodyOf(body)}, etag: "${etag}" },\n`,
  );
  return `const bytes = (text: string) => Uint8Array.from(atob(text), (one) => one.charCodeAt(0));
type Made = { readonly type: string; readonly body: string | Uint8Array<ArrayBuffer>; readonly etag: string };

export const assets: Readonly<Record<string, Made>> = {
${entries.join("")}};\n`;
};

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
    jsxImportSource: "#page",
    loader: { ".svg": "copy" },
    legalComments: "none",
    outdir: ".built",
    logLevel: "warning",
  });
  return result.outputFiles.find(({ path }) => !path.endsWith(".map") && !(from.endsWith(".svg") && path.endsWith(".js")))!.text;
}
