/** The checks need a browser and PDF tools. As root on Debian they are installed; elsewhere what is missing is named, never skipped. */
import { spawn, spawnSync } from "node:child_process";
import { existsSync } from "node:fs";

const NEEDED: readonly { readonly command: string; readonly debian: string }[] = [
  { command: "chromium", debian: "chromium" },
  { command: "pdftotext", debian: "poppler-utils" },
  { command: "pdftoppm", debian: "poppler-utils" },
  { command: "qpdf", debian: "qpdf" },
  { command: "xmllint", debian: "libxml2-utils" },
  { command: "soffice", debian: "libreoffice-calc-nogui" },
  { command: "gcc", debian: "gcc libc6-dev" },
];

const missing = () => NEEDED.filter(({ command }) => spawnSync("sh", ["-c", `command -v ${command}`]).status !== 0);

/** Settles once they are here; what then is still missing is said, and what needs it fails. Elsewhere than on Debian nothing begins without them. */
export async function ensureTools(): Promise<void> {
  const absent = missing();
  if (absent.length === 0) return;
  const installable = existsSync("/etc/debian_version") && process.getuid?.() === 0;
  if (installable) {
    const packages = [...new Set(absent.flatMap((tool) => tool.debian.split(" ")))];
    console.log(`Installing with apt: ${packages.join(", ")}`);
    await apt("update", "-qq");
    await apt("install", "-y", "-qq", "--no-install-recommends", ...packages);
  }
  const still = missing();
  if (still.length === 0) return;
  console.error("These tools are needed by the tests and are not on this machine:");
  for (const { command, debian } of still) console.error(`  ${command}  (Debian package ${debian})`);
  console.error("Install them and run the tests again. As root on Debian this happens by itself.");
  if (!installable) process.exit(1);
}

const apt = (...args: readonly string[]): Promise<unknown> =>
  new Promise((done) => {
    const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
    spawn("apt-get", [...args], { stdio: ["ignore", "ignore", "inherit"], env })
      .on("close", done)
      .on("error", done);
  });
