/** How a change is answered: held back before it is tried, or by what the records said of it. */
import type { Context } from "hono";
import type { Replaced } from "../../records/answers.js";
import type { AppEnv } from "../bindings.js";
import { type RefuseWith, refuse } from "../problems/refuse.js";
import { etagOf, matches } from "./etag.js";

export type Kept = { readonly id: string; readonly version: number };

/** `refuse` for handlers whose documented answers are typed. */
export const refused = (c: Context, ...rest: Parameters<typeof refuse> extends [unknown, ...infer Rest] ? Rest : never): never =>
  refuse(c, ...rest) as never;

/** Why a change may not even be tried: no such record, no If-Match, or another version. */
export function heldBack(c: Context<AppEnv>, one: string, current: Kept | undefined): undefined | never {
  if (!current) return refused(c, "not found", { detail: `There is no such ${one}.` });
  const header = c.req.header("if-match");
  if (header === undefined) return refused(c, "version wanted", { headers: { etag: etagOf(current) } });
  return matches(header, etagOf(current)) ? undefined : refused(c, "version moved", moved(current));
}

/** The answer to a change that was tried. */
export function replaced<Record extends Kept, Other extends { readonly is: string }>(
  c: Context<AppEnv>,
  one: string,
  answer: Replaced<Record> | Other,
  refuseOther?: (c: Context<AppEnv>, answer: Other) => never,
) {
  const usual = answer as Replaced<Record>;
  switch (usual.is) {
    case "replaced":
      c.header("etag", etagOf(usual.record));
      return c.json(usual.record as never, 200);
    case "missing":
      return refused(c, "not found", { detail: `There is no such ${one}.` });
    case "moved":
      return refused(c, "version moved", moved(usual.current));
    case "taken":
      return refused(c, "id taken");
    case "unlinked":
      return refused(c, "input refused", unlinked(usual));
    default:
      if (refuseOther) return refuseOther(c, answer as Other);
      throw new Error(`Nobody answers '${(answer as Other).is}'.`);
  }
}

export const moved = (current: Kept): RefuseWith => ({
  detail: `The record is at version ${current.version} by now; fetch it again and put your change on top.`,
  headers: { etag: etagOf(current) },
  current,
});

export const unlinked = ({ field, id }: { readonly field: string; readonly id: string }): RefuseWith => ({
  errors: [
    { pointer: `/${field}`, name: "record unknown", detail: `${field} is '${id}', which names no record; add that one first.` },
  ],
});
