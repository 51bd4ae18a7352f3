/** How a handler of documented answers refuses. */
import type { Context } from "hono";
import { refuse } from "../problems/refuse.js";

/** `refuse` for handlers whose documented answers are typed. */
export const refused = (c: Context, ...rest: Parameters<typeof refuse> extends [unknown, ...infer Rest] ? Rest : never): never =>
  refuse(c, ...rest) as never;
