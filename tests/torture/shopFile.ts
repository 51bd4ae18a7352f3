/** The demo shop with one job agreed to: what is written to, and killed. */
import { copyFile, mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { connectFile } from "../../src/records/connectFile.js";
import { type Demo, loadDemo } from "../../src/tools/demo.js";
import { madeOnce, migratedFile } from "../http/support/madeOnce.js";
import { agreedJob } from "../records/support/closed.js";
import { at, TAPE_ECHO } from "../records/support/livedIn.js";
import { halves } from "./standing.js";
import type { Shop } from "./writes.js";

const shopFile = madeOnce(async (db) => {
  const demo: Demo = JSON.parse(await readFile("fixtures/demo/shop.json", "utf8"));
  await loadDemo(db, demo, at(0));
  await agreedJob(db, TAPE_ECHO);
  const [{ id: draftJob, estimates }] = demo.jobs as [Demo["jobs"][number]];
  const shop: Shop = { agreed: TAPE_ECHO, draftJob, draft: estimates[0]!.id, part: demo.partKinds[0]!.name };
  return { shop, before: await halves(db) };
}, migratedFile);

/** A folder of data as `npm start` takes it, and what was half in it before anything was written. */
export async function freshShop() {
  const { path, made } = await shopFile();
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-torture-"));
  await copyFile(path, join(folder, "ohmwright.db"));
  return { ...made, folder, gone: () => rm(folder, { recursive: true, force: true }) };
}

export type FreshShop = Awaited<ReturnType<typeof freshShop>>;

export const opened = ({ folder }: Pick<FreshShop, "folder">) => connectFile(`file:${join(folder, "ohmwright.db")}`);
