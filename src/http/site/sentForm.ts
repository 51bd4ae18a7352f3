/** A form as it was sent, with the fields that stand several times, such as ticks of one name. */
import type { Context } from "hono";
import { fieldsFrom } from "../../pages/form/fields.js";
import type { AppEnv } from "../bindings.js";
import { isForm } from "./form.js";

export interface SentForm {
  readonly fields: ReadonlyMap<string, string>;
  readonly intent: string;
  readonly all: (name: string) => readonly string[];
}

/** Undefined where it is no form. */
export async function sentForm(c: Context<AppEnv>): Promise<SentForm | undefined> {
  if (!isForm(c)) return undefined;
  const pairs = new URLSearchParams(await c.req.text());
  return { fields: fieldsFrom(pairs), intent: pairs.get("intent") ?? "", all: (name) => [...new Set(pairs.getAll(name))] };
}

export const NOT_A_FORM = { detail: "Send the form as application/x-www-form-urlencoded." };
