/** npm run build: the documents' fonts and what browsers are sent, under .built. Quick when nothing changed. */
import { pathToFileURL } from "node:url";
import { buildAssets } from "./assets.js";
import { compileFonts } from "./fonts/compile.js";

export async function build(): Promise<void> {
  await Promise.all([compileFonts(), buildAssets()]);
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) await build();
