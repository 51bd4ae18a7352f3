import { createRequire } from "node:module";
import { dirname, join } from "node:path";

/** Wrangler as installed, kept from calling home. */
export function wrangler(): { readonly path: string; readonly env: NodeJS.ProcessEnv } {
  const manifest = createRequire(import.meta.url).resolve("wrangler/package.json");
  return {
    path: join(dirname(manifest), "bin", "wrangler.js"),
    env: { ...process.env, CLOUDFLARE_CF_FETCH_ENABLED: "false", WRANGLER_SEND_METRICS: "false", WRANGLER_HIDE_BANNER: "true" },
  };
}
