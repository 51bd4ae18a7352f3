/** The shop's settings: read, checked and written as one record. */
import { type Context, Hono } from "hono";
import { shapeFaults } from "../../acts/fault.js";
import { settingsValue } from "../../acts/shapes/resources.js";
import { PROFILES } from "../../estimating/law/profiles.js";
import { currencyCodes } from "../../estimating/money/currency.js";
import { type SettingsFields, SettingsPage } from "../../pages/shop/settings.js";
import { rateBooks } from "../../records/rateBooks.js";
import { settings as records, type Settings, SHOP, shopSettings } from "../../records/settings.js";
import { LANGUAGES, languageName } from "../../wording/tongue.js";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";
import { formOf, isForm } from "./form.js";
import { frameFor, pageAnswer } from "./frame.js";

export const settings = new Hono<AppEnv>();

settings.get("/settings", async (c) => {
  const kept = await shopSettings(c.var.db);
  return show(c, fieldsOf(kept, kept.version), {}, c.req.query("saved") === undefined ? undefined : "Saved.");
});

settings.post("/settings", async (c) => {
  if (!isForm(c)) return refuse(c, "media type unsupported", { detail: "Send the form as application/x-www-form-urlencoded." });
  const { fields } = await formOf(c);
  const sent = valueFrom(fields);
  const read = settingsValue.safeParse(sent);
  if (!read.success) {
    const faults = shapeFaults(read.error.issues, sent);
    const errors = Object.fromEntries(faults.map(({ pointer, detail }) => [fieldAt(pointer), detail]));
    return show(c, fields, errors);
  }
  const answer = await records.replace(
    c.var.db,
    SHOP,
    Number(fields.get("version")) || 0,
    read.data as Settings,
    c.var.clock().toISOString(),
  );
  if (answer.is === "replaced") return c.redirect("/settings?saved", 303);
  if (answer.is === "moved") return show(c, asKept(fields, answer.current), theirs(fields, answer.current));
  return show(c, fields, { rateBookId: "This rate book is not on record; choose another." });
});

const ONE_LINE = [
  "name",
  "phone",
  "email",
  "taxNumber",
  "registration",
  "currency",
  "locale",
  "timeZone",
  "paper",
  "language",
  "logo",
  "rateBookId",
] as const;
const LISTS = ["address", "terms", "footer"] as const;
const profiles = PROFILES.filter(({ id }) => id !== "plain");
const termsField = (id: string): string => `profileTerms.${id}`;

/** The name of the field that a pointer into the settings leads to. */
function fieldAt(pointer: string): string {
  const [, name = "name", key] = pointer.split("/");
  return name === "profileTerms" && key !== undefined ? termsField(key) : name;
}

const linesIn = (text: string | undefined): string[] =>
  (text ?? "")
    .split(/\r?\n/)
    .map((entry) => entry.trim())
    .filter(Boolean);

function valueFrom(fields: SettingsFields): Record<string, unknown> {
  const value: Record<string, unknown> = { name: "" };
  for (const name of ONE_LINE) if (fields.get(name)?.trim()) value[name] = fields.get(name)!.trim();
  for (const name of LISTS) {
    const entries = linesIn(fields.get(name));
    if (entries.length > 0) value[name] = entries;
  }
  const profileTerms = profiles.flatMap(({ id }) => {
    const entries = linesIn(fields.get(termsField(id)));
    return entries.length > 0 ? [[id, entries] as const] : [];
  });
  if (profileTerms.length > 0) value.profileTerms = Object.fromEntries(profileTerms);
  const days = fields.get("benchQueueDays")?.trim() || "0";
  value.benchQueueDays = /^\d+$/.test(days) ? Number(days) : days;
  return value;
}

function fieldsOf(kept: Settings, version: number): Map<string, string> {
  const fields = new Map<string, string>([["version", String(version)]]);
  for (const name of ONE_LINE) if (kept[name] !== undefined) fields.set(name, kept[name]);
  for (const name of LISTS) if (kept[name]) fields.set(name, kept[name].join("\n"));
  for (const [id, terms] of Object.entries(kept.profileTerms ?? {})) fields.set(termsField(id), terms.join("\n"));
  return fields.set("benchQueueDays", String(kept.benchQueueDays));
}

/** The logo has a page of its own, so the one kept now stands. */
const asKept = (fields: SettingsFields, { version, logo = "" }: Settings & { readonly version: number }): SettingsFields =>
  new Map(fields).set("version", String(version)).set("logo", logo);

/** Someone else saved first: what they wrote stands beside each field that differs. */
function theirs(ours: SettingsFields, current: Settings & { readonly version: number }): Record<string, string> {
  const written = fieldsOf(current, current.version);
  const asked = ONE_LINE.filter((name) => name !== "logo");
  const different = [...asked, ...LISTS, ...profiles.map(({ id }) => termsField(id)), "benchQueueDays"].filter(
    (name) => (ours.get(name) ?? "").replaceAll("\r\n", "\n").trim() !== (written.get(name) ?? ""),
  );
  const savedMeanwhile = different.map((name) => [
    name,
    `Someone else saved '${written.get(name) ?? ""}' here meanwhile. Save again to keep yours.`,
  ]);
  return Object.fromEntries(
    savedMeanwhile.length > 0 ? savedMeanwhile : [["name", "Someone else saved the same meanwhile; nothing is left to save."]],
  );
}

async function show(c: Context<AppEnv>, fields: SettingsFields, errors: Readonly<Record<string, string>> = {}, say?: string) {
  const [kept, books] = await Promise.all([shopSettings(c.var.db), rateBooks.list(c.var.db, { limit: 100 })]);
  const wrong = new Map(Object.entries(errors));
  return pageAnswer(
    c,
    <SettingsPage
      frame={frameFor(c, kept.name)}
      fields={fields}
      errors={wrong}
      books={books.rows.map(({ book }) => book)}
      currencies={currencyCodes()}
      languages={LANGUAGES.map((language) => [language, languageName(language)] as const)}
      profiles={profiles}
      {...(say && { say })}
    />,
    wrong.size > 0 ? 422 : 200,
  );
}
