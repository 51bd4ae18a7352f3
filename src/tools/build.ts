/** npm run build: the documents' fonts and what browsers are sent, under .built. The stylesheet names the fonts. Quick when nothing changed. */
import { pathToFileURL } from "node:url";
import { buildAssets } from "./assets.js";
import { compileFonts } from "./fonts/compile.js";

export async function build(): Promise<void> {
  await compileFonts();
  await buildAssets();
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) await build();
