/** The owner's forms. */
import type { Context } from "hono";
import { HTTPException } from "hono/http-exception";
import type { OwnerChoice } from "../../pages/owner/view.js";

export async function fieldsOf(c: Context): Promise<URLSearchParams> {
  if (!/^application\/x-www-form-urlencoded\b/i.test(c.req.header("content-type") ?? ""))
    throw new HTTPException(415, { message: "Send the form as application/x-www-form-urlencoded." });
  return new URLSearchParams(new TextDecoder().decode(await c.req.arrayBuffer()));
}

export const choiceIn = (fields: URLSearchParams): OwnerChoice => ({
  chosen: [...new Set(fields.getAll("choose"))],
  struck: [...new Set(fields.getAll("strike"))],
});
