/** The owner's forms. */
import type { Context } from "hono";
import type { OwnerChoice } from "../../pages/owner/view.js";

export async function fieldsOf(c: Context): Promise<URLSearchParams> {
  return new URLSearchParams(new TextDecoder().decode(await c.req.arrayBuffer()));
}

/** Ids of work that did not stay ticked. */
export function leftOut(ticked: readonly string[], work: readonly { readonly id: string }[]): string[] {
  const kept = new Set(ticked);
  return work.flatMap(({ id }) => (kept.has(id) ? [] : [id]));
}

/** A page lists all work and sends what stays ticked; a program may send what is struck out. */
export function choiceIn(fields: URLSearchParams, work: readonly { readonly id: string }[]): OwnerChoice {
  const left = fields.has("work") ? leftOut(fields.getAll("work"), work) : [];
  return { chosen: [...new Set(fields.getAll("chosen"))], struck: [...new Set([...fields.getAll("struck"), ...left])] };
}
