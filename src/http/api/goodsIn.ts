/** Goods in: what came, what was paid, how many were good, and what share is believed to be good by now; and the shelf they lie on. */
import { bringIn } from "../../acts/bringIn.js";
import { shopRateBook } from "../../acts/checked.js";
import { countKind } from "../../acts/countStock.js";
import { keptGoodsIn, movement, shareBelief, shelved } from "../../acts/shapes/parts.js";
import { testGoods } from "../../acts/testGoods.js";
import { sharesGood } from "../../estimating/closeout/learning/shareGood.js";
import { goodsInPage, goodsTested } from "../../records/goodsIn.js";
import { partKinds } from "../../records/partKinds.js";
import { movementsOf, shelf } from "../../records/stock.js";
import { apiDoor } from "../doors/api.js";
import { look } from "../doors/look.js";
import { router } from "../doors/router.js";

export const goodsIn = router();

look(goodsIn, {
  ...{ path: "/api/goods-in", tag: "goods in", name: "listGoodsIn", answer: keptGoodsIn, says: "Goods in" },
  title: "A page of goods in, newest first",
  page: (c, limit, after) => goodsInPage(c.var.db, limit, after),
});

apiDoor(goodsIn, bringIn, {
  path: "/api/goods-in",
  tag: "goods in",
  description: "Raises the stock, and makes the price paid a dated offer",
  on: () => ({}),
  refusals: [],
});
apiDoor(goodsIn, testGoods, {
  path: "/api/goods-in/{id}/tests",
  tag: "goods in",
  on: ({ id }) => ({ goods: id }),
  refusals: ["not found"],
});

look(goodsIn, {
  ...{ path: "/api/shares-good", tag: "goods in", name: "listSharesGood", answer: shareBelief, says: "Beliefs" },
  title: "What share of the pieces is believed to be good, by state and by source",
  few: async ({ var: { db } }) => sharesGood(await goodsTested(db), await shopRateBook(db)),
});

look(goodsIn, {
  ...{ path: "/api/stock", tag: "stock", name: "listStock", answer: shelved, says: "Counts" },
  title: "A page of part kinds with the pieces on the shelf",
  page: async (c, limit, after) =>
    (await shelf(c.var.db, limit, after)).map(({ value, stock, ...kind }) => ({
      ...kind,
      ...(value !== null && { value }),
      stock: stock ?? 0,
    })),
});

apiDoor(goodsIn, countKind, { path: "/api/stock/counts", tag: "stock", on: () => ({}), refusals: [] });

look(goodsIn, {
  ...{ path: "/api/part-kinds/{id}/movements", tag: "stock", name: "listStockMovements", answer: movement, says: "Up to 200" },
  title: "The last movements of a part kind, newest first",
  none: "There is no such part kind.",
  few: async (c, { id }) => ((await partKinds.find(c.var.db, id)) ? movementsOf(c.var.db, id, 200) : undefined),
});
