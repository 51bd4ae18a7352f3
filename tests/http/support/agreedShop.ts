/** A shop of this test's own in which the tape echo's first revision is agreed to, without its options. Agreed to once, and copied. */
import { rmSync } from "node:fs";
import { mkdtemp } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { agreedJob } from "../../records/support/closed.js";
import { openShop, shop } from "./shop.js";

let made: Promise<string> | undefined;

async function make(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-test-"));
  process.once("exit", () => rmSync(folder, { recursive: true }));
  const { db, close } = await openShop();
  await agreedJob(db);
  const path = join(folder, "agreed.db");
  await db.run(`VACUUM INTO '${path}'`);
  await close();
  return path;
}

export async function agreedShop() {
  made ??= make();
  return shop({}, await made);
}
