/** The shop's part of the set-up: name, currency, how figures are written. */
import type { Context } from "hono";
import { shapeFaults } from "../../acts/fault.js";
import { settings as shop } from "../../acts/settings.js";
import { rateBooks } from "../../records/rateBooks.js";
import { type Settings, SHOP, settings, shopSettings } from "../../records/settings.js";
import type { AppEnv } from "../bindings.js";
import type { SentFields } from "./form.js";

const NAMES = { name: "shopName", currency: "currency", locale: "locale", timeZone: "timeZone", paper: "paper" } as const;

/** Faults by field, or nothing when it is on record. The example rates follow the currency, their figures do not. */
export async function saveShop(c: Context<AppEnv>, fields: SentFields): Promise<Record<string, string> | undefined> {
  const { db } = c.var;
  const at = c.var.clock().toISOString();
  const { id: _, version, createdAt: __, updatedAt: ___, ...kept } = await shopSettings(db);
  const wanted = { ...kept, ...Object.fromEntries(Object.entries(NAMES).map(([name, field]) => [name, fields.text(field)])) };
  const read = shop.fields.safeParse(wanted);
  if (!read.success) {
    const faults = shapeFaults(read.error.issues, wanted).map(({ pointer, detail }) => {
      const name = pointer.split("/")[1] as keyof typeof NAMES;
      return [NAMES[name] ?? "shopName", detail] as const;
    });
    return Object.fromEntries(faults);
  }
  const value = read.data as Settings;
  if ((Object.keys(NAMES) as (keyof typeof NAMES)[]).every((name) => kept[name] === value[name])) return undefined;
  await settings.replace(db, SHOP, version, value, at);
  const newest = await rateBooks.find(db, value.rateBookId);
  if (newest && newest.book.currency !== value.currency)
    await rateBooks.replace(db, newest.id, newest.version, { ...newest.book, currency: value.currency }, at);
  return undefined;
}
