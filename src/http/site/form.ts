/** Forms as the pages send them. */
import type { Context } from "hono";
import { HTTPException } from "hono/http-exception";
import { uuidv7 } from "uuidv7";
import { type Fields, fieldsFrom } from "../../pages/form/fields.js";
import { whole } from "../../pages/form/rest.js";
import type { AppEnv } from "../bindings.js";

export const isForm = (c: Context<AppEnv>): boolean =>
  /^application\/x-www-form-urlencoded\b/i.test(c.req.header("content-type") ?? "");

export async function formOf(c: Context<AppEnv>): Promise<{ readonly fields: Fields; readonly intent: string }> {
  const pairs = new URLSearchParams(await c.req.text());
  const intent = pairs.get("intent") ?? "recalculate";
  pairs.delete("intent");
  return { fields: whole(fieldsFrom(pairs)), intent };
}

/** A form with files in it. */
export async function formWithFiles(c: Context<AppEnv>): Promise<FormData> {
  try {
    return await c.req.formData();
  } catch {
    throw new HTTPException(415, { message: "The form was cut short on its way; send it again." });
  }
}

/** Names the records of a new job, so that a form sent twice writes one. */
const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;
export const tokenIn = (fields: Fields): string =>
  UUID.test(fields.get("meta.token") ?? "") ? fields.get("meta.token")! : uuidv7();
