/** What a new database is filled with, once: the demo shop as it opens or after its year, or an empty one. */
import { readFile } from "node:fs/promises";
import type { Database } from "../records/database.js";
import { type Settings, SHOP, settings } from "../records/settings.js";
import { type Demo, loadDemo, loadEmptyShop } from "./demo.js";
import { type ClosedDemo, loadClosedDemo } from "./demoClosed.js";
import { playYear, type Year } from "./demoYear.js";

export type FirstShop = "year" | "demo" | "empty";

const fixture = async (name: string): Promise<unknown> =>
  JSON.parse(await readFile(new URL(`../../fixtures/demo/${name}`, import.meta.url), "utf8"));

/** Answers what was loaded, or nothing when the database holds a shop already. */
export async function fillOnce(db: Database, shop: FirstShop, now: Date): Promise<FirstShop | undefined> {
  if (await settings.find(db, SHOP)) return undefined;
  const at = now.toISOString();
  if (shop === "year") {
    await playYear(db, (await fixture("shop.json")) as Demo, (await fixture("year.json")) as Year, now);
  } else if (shop === "demo") {
    await loadDemo(db, (await fixture("shop.json")) as Demo, at);
    await loadClosedDemo(db, (await fixture("closed-job.json")) as ClosedDemo);
  } else {
    const rateBook = (await fixture("rate-book.json")) as Demo["rateBook"];
    await loadEmptyShop(db, { rateBook, settings: emptySettings(rateBook) }, at);
  }
  return shop;
}

/** Everything here is for the owner to change first. */
const emptySettings = ({ id, currency }: Demo["rateBook"]): Settings => ({
  name: "My workshop",
  currency,
  locale: "en-GB",
  timeZone: Intl.DateTimeFormat().resolvedOptions().timeZone || "UTC",
  paper: "A4",
  detail: "letter",
  rateBookId: id,
  benchQueueDays: 0,
  linkDays: 90,
  warrantyDays: 90,
});
