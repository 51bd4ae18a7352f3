/** A new estimate is kept while it is typed, so that it is found again after a crash or on another device. */
import type { Context } from "hono";
import type { Fields } from "../../pages/form/fields.js";
import type { Begun } from "../../pages/frame/begun.js";
import { estimates } from "../../records/estimates.js";
import { typedDrafts } from "../../records/typedDrafts.js";
import { moment } from "../../wording/time.js";
import type { AppEnv } from "../bindings.js";
import { tokenIn } from "./form.js";

/** Before anyone has an account it is the shop's. */
const personIn = (c: Context<AppEnv>): string => c.var.staff?.id ?? "";

export async function begunBy(
  c: Context<AppEnv>,
  { locale, timeZone }: { readonly locale: string; readonly timeZone: string },
): Promise<readonly Begun[]> {
  const begun = await typedDrafts.of(c.var.db, personIn(c));
  return begun.map(({ id, unit, at }) => ({ id, unit, at: moment(at, locale, timeZone) }));
}

const BELONGS_HERE = new Set(["meta.rest", "meta.draft", "meta.draftVersion"]);

/** Answers where it is kept by now. What came late, after it was saved, is no draft any more. */
export async function keepBegun(c: Context<AppEnv>, fields: Fields): Promise<Response> {
  if (await estimates.find(c.var.db, tokenIn(fields))) return c.body(null, 409);
  const said = (name: string) => fields.get(name)?.trim() ?? "";
  const unit = [said("unit.maker"), said("unit.model")].filter(Boolean).join(" ") || "a unit not named yet";
  const kept = await typedDrafts.keep(
    c.var.db,
    personIn(c),
    said("meta.draft") || tokenIn(fields),
    Number(said("meta.draftVersion")) || 0,
    { unit: unit.slice(0, 120), fields: [...fields].filter(([name, text]) => text !== "" && !BELONGS_HERE.has(name)) },
    c.var.clock().toISOString(),
  );
  return kept ? c.json(kept) : c.body(null, 413);
}

export async function begunFields(c: Context<AppEnv>, id: string): Promise<Map<string, string> | undefined> {
  const found = await typedDrafts.find(c.var.db, personIn(c), id);
  return found && new Map([...found.fields, ["meta.draft", found.id], ["meta.draftVersion", String(found.version)]]);
}

/** Under its own id, or, where the answer to the first keeping never came, under the form's. */
export const draftsSaid = (fields: Fields): readonly string[] =>
  ["meta.draft", "meta.token"].flatMap((name) => fields.get(name) || []);

export async function dropBegun(c: Context<AppEnv>, fields: Fields): Promise<void> {
  for (const id of draftsSaid(fields)) await typedDrafts.dropped(c.var.db, personIn(c), id);
}
