/** The README's chain of calls for whoever ties a program to the shop, run as it is printed there. */
import { execFile } from "node:child_process";
import { readFileSync } from "node:fs";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { serve } from "@hono/node-server";
import { expect, it, onTestFinished } from "vitest";
import { shop } from "../support/shop.js";

const chain = /<!-- chain -->\n```\n([\s\S]*?)\n```/.exec(readFileSync("README.md", "utf8"))![1]!;
const TODAY = "2026-11-25";

it("leads from intake to the closed job, by curl alone", async () => {
  const { app } = await shop();
  const server = serve({ fetch: app.fetch, port: 0, hostname: "127.0.0.1" });
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-chain-"));
  onTestFinished(async () => {
    server.close();
    await rm(folder, { recursive: true });
  });
  const { port } = server.address() as AddressInfo;
  const here = chain.replace("http://127.0.0.1:4700", `http://127.0.0.1:${port}`);
  expect(here).not.toBe(chain);
  // The test shop's clock stands still.
  const script = `set -euo pipefail\ndate() { echo ${TODAY}; }\n${here}\necho "$job"`;
  const { stdout } = await promisify(execFile)("bash", ["-c", script], { cwd: folder });

  for (const paper of ["estimate.pdf", "final-account.pdf"])
    expect((await readFile(join(folder, paper))).subarray(0, 5).toString()).toBe("%PDF-");
  const [answer, account] = await Promise.all(
    ["answer.json", "account.json"].map(async (name) => JSON.parse(await readFile(join(folder, name), "utf8"))),
  );
  expect(answer).toMatchObject({ answer: "agreed", by: "Orla Thistlewick" });
  expect(account.closedOn).toBe(TODAY);
  const job = (await (await app.request(`/api/jobs/${stdout.trim()}`)).json()) as { state: string };
  expect(job.state).toBe("closed");
});
