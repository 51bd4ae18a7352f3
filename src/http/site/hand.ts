/** Who works at the shelf: the one signed in, or whoever moved stock last. */
import type { Context } from "hono";
import { lastHandAtShelf } from "../../records/stock.js";
import type { AppEnv } from "../bindings.js";
import { handKept } from "../guard/cookies.js";

export const shopHand = async (c: Context<AppEnv>): Promise<string> =>
  c.var.staff?.name ?? ((await lastHandAtShelf(c.var.db)) || handKept(c));
