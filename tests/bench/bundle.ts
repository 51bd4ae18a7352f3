import { build } from "esbuild";

/** The works as one module for workerd, or for a Node thread of its own. */
export async function bundleOf(entry: string): Promise<string> {
  const bundle = await build({
    entryPoints: [entry],
    bundle: true,
    write: false,
    format: "esm",
    platform: "browser",
    conditions: ["workerd", "worker", "browser"],
  });
  return bundle.outputFiles[0]!.text;
}
