/** The order list as a CSV file, for page and program. */
import type { Context } from "hono";
import { shopOrderList } from "../../acts/partsToGet.js";
import { today } from "../../acts/today.js";
import { orderListCsv } from "../../documents/orderListCsv.js";
import { shopSettings } from "../../records/settings.js";
import type { AppEnv } from "../bindings.js";

export async function orderListFile(c: Context<AppEnv>): Promise<Response> {
  const { timeZone } = await shopSettings(c.var.db);
  const day = today(c.var.clock(), timeZone);
  const { list, jobs } = await shopOrderList(c.var.db, day);
  const numbers = new Map([...jobs].map(([id, { number }]) => [id, number]));
  return c.body(orderListCsv(list, numbers), 200, {
    "content-type": "text/csv; charset=utf-8; header=present",
    "content-disposition": `attachment; filename="order-list-${day}.csv"`,
  });
}
