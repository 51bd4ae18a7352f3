/** The server as its own process, on a folder of data: started, and killed as a power cut would. */
import { spawn } from "node:child_process";
import { build } from "esbuild";

export interface Served {
  readonly url: string;
  readonly pid: number;
  /** All it has written to its streams. */
  readonly said: () => string;
  /** Resolves when it is gone, with its exit code; null: it was killed. */
  readonly gone: Promise<number | null>;
  /** SIGKILL; resolves when it is gone. */
  readonly kill: () => Promise<void>;
}

/** What node is given to serve a folder; it writes the address it listens at. */
export type Program = (folder: string) => readonly string[];

/** What `npm start` runs. */
export const npmStart: Program = (folder) => ["--import", "tsx", "src/tools/start.ts", "--port", "0", "--data", folder];

let bundled: Promise<string> | undefined;

/** shopServer.ts in one file, which starts in a third of the time: in the project, where its packages are found. */
export async function bundle(how = ""): Promise<Program> {
  const outfile = ".built/torture/shopServer.mjs";
  bundled ??= build({
    entryPoints: ["tests/torture/shopServer.ts"],
    outfile,
    ...{ bundle: true, platform: "node", format: "esm", packages: "external", jsx: "automatic", jsxImportSource: "#page" },
  }).then(() => outfile);
  const file = await bundled;
  return (folder) => [file, folder, how];
}

export async function served(folder: string, program: Program, more: Readonly<Record<string, string>> = {}): Promise<Served> {
  const env = Object.fromEntries(Object.entries(process.env).filter(([name]) => !name.startsWith("OHMWRIGHT_")));
  const child = spawn(process.execPath, [...program(folder)], { env: { ...env, ...more }, stdio: ["ignore", "pipe", "pipe"] });
  const gone = new Promise<number | null>((resolve) => child.once("exit", resolve));
  let said = "";
  const url = await new Promise<string>((resolve, reject) => {
    for (const stream of [child.stdout, child.stderr])
      stream.on("data", (chunk: Buffer) => {
        said += chunk;
        const at = /http:\/\/127\.0\.0\.1:\d+/.exec(said)?.[0];
        if (at) resolve(at);
      });
    gone.then(() => reject(new Error(`The server left: ${said}`)));
  });
  return {
    url,
    pid: child.pid!,
    said: () => said,
    gone,
    kill: async () => {
      child.kill("SIGKILL");
      await gone;
    },
  };
}
