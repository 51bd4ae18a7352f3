/** The owner's forms. */
import type { Context } from "hono";
import type { OwnerChoice } from "../../pages/owner/view.js";

export async function fieldsOf(c: Context): Promise<URLSearchParams> {
  return new URLSearchParams(new TextDecoder().decode(await c.req.arrayBuffer()));
}

export const choiceIn = (fields: URLSearchParams): OwnerChoice => ({
  chosen: [...new Set(fields.getAll("chosen"))],
  struck: [...new Set(fields.getAll("struck"))],
});
