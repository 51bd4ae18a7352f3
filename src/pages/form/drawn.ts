/**
 * What stood in the records of owner, unit and visit when a form was drawn. It travels with the form, so that saving writes what this form
 * changed and leaves what others changed meanwhile.
 */
import type { Party, Unit } from "../../estimating/input.js";
import type { FormContext } from "./context.js";
import { draftFrom } from "./draft.js";
import type { Fields } from "./fields.js";
import { readOwner, readUnit } from "./readForm.js";
import { reading } from "./reading.js";

export const isOnRecord = (field: string): boolean =>
  /^(owner\.(name|address|phone|email|language)|unit\.(maker|model|serial|value|accessories|condition|reported)|caution\..+)$/.test(
    field,
  );

/** Field of a fact -> text; of a form without it: nothing stood there. */
export function drawnIn(fields: Fields): Fields {
  try {
    const pairs = Object.entries(JSON.parse(fields.get("meta.drawn") ?? "{}") as Record<string, unknown>);
    return new Map(
      pairs.flatMap(([name, text]) => (isOnRecord(name) && typeof text === "string" ? [[name, text] as const] : [])),
    );
  } catch {
    return new Map();
  }
}

export const withDrawn = (fields: Fields, stands: Fields): Map<string, string> =>
  new Map(fields).set(
    "meta.drawn",
    JSON.stringify(Object.fromEntries([...stands].filter(([name, text]) => isOnRecord(name) && text))),
  );

/** What this form did not change reads as it stands now. */
export function broughtUpToDate(fields: Fields, stands: Fields): Map<string, string> {
  const drawn = drawnIn(fields);
  const said = (of: Fields, name: string) => (of.get(name) ?? "").replace(/\r\n?/g, "\n").trim();
  const now = new Map(fields);
  for (const name of new Set([...fields.keys(), ...stands.keys()])) {
    if (!isOnRecord(name) || said(fields, name) !== said(drawn, name)) continue;
    if (stands.has(name)) now.set(name, stands.get(name)!);
    else now.delete(name);
  }
  return withDrawn(now, stands);
}

/** The same as values. */
export function readDrawn(
  fields: Fields,
  context: FormContext,
): { readonly owner: Partial<Party> & { readonly language?: string }; readonly unit: Partial<Unit> } {
  const [at, draft] = [reading(context), draftFrom(drawnIn(fields))];
  const { grade: _, maker, model, ...unit } = readUnit(at, draft);
  const { language } = draft.owner;
  return {
    owner: { ...readOwner(at, draft), ...(language && { language }) },
    unit: { ...unit, ...(maker && { maker }), ...(model && { model }) },
  };
}
