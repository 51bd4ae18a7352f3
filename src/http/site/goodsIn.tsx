/** Orders still to come, and taking parts in. */

import { type Context, Hono } from "hono";
import { bringIn } from "../../acts/bringIn.js";
import { shopRateBook } from "../../acts/checked.js";
import { testGoods } from "../../acts/testGoods.js";
import { today } from "../../acts/today.js";
import { sharesGood } from "../../estimating/closeout/learning/shareGood.js";
import type { AskedForm } from "../../pages/frame/ask.js";
import { GoodsInPage } from "../../pages/parts/goodsInPage.js";
import { GoodsTestPage } from "../../pages/parts/goodsTestPage.js";
import type { Database } from "../../records/database.js";
import { findGoodsIn, goodsInPage, goodsTested } from "../../records/goodsIn.js";
import { offers, sourcesKnown } from "../../records/offers.js";
import { findOrder, findOrderLine, openOrders } from "../../records/orders.js";
import { kindsNear } from "../../records/partKinds.js";
import { type Settings, shopSettings } from "../../records/settings.js";
import { counted } from "../../wording/list.js";
import type { AppEnv } from "../bindings.js";
import { type Again, fresh, pageDoor } from "../doors/page.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { shopHand } from "./hand.js";

export const goodsIn = new Hono<AppEnv>();

const LAST = 30;

/** What is not named is not asked for. */
const named = <Found,>(id: string | undefined, find: (db: Database, id: string) => Promise<Found | undefined>, db: Database) =>
  id ? find(db, id) : undefined;

goodsIn.get("/parts/goods-in", async (c) => {
  const settings = await shopSettings(c.var.db);
  const line = await named(c.req.query("line"), findOrderLine, c.var.db);
  const offer = line && (await offers.find(c.var.db, line.offerId));
  const order = line && (await findOrder(c.var.db, line.orderId));
  const form = fresh(bringIn, {
    receivedOn: today(c.var.clock(), settings.timeZone),
    by: await shopHand(c),
    ...(line &&
      offer && {
        orderLineId: line.id,
        kind: line.name,
        source: offer.source,
        state: offer.state,
        pieces: String(Math.max(0, line.pieces - line.came)),
        packSize: String(offer.packSize),
        // What was ordered in another currency is paid in it.
        currency: order?.currency,
      }),
  });
  const goods = await named(c.req.query("in"), findGoodsIn, c.var.db);
  const ended = await named(c.req.query("ended"), findOrder, c.var.db);
  const say = goods
    ? `In: ${counted(goods.pieces, "piece")} of ${goods.name}. Stock and prices are updated.`
    : ended && `The order from ${ended.source} is ended.`;
  return show(c, settings, form, say);
});

goodsIn.post("/parts/goods-in", async (c) => {
  const settings = await shopSettings(c.var.db);
  return pageDoor(c, bringIn, {
    on: {},
    tongue: settings,
    done: ({ id }) => `/parts/goods-in?in=${encodeURIComponent(id)}`,
    show: (again) => show(c, settings, again),
  });
});

goodsIn.get("/parts/goods-in/:id/tests", async (c) => {
  const goods = await findGoodsIn(c.var.db, c.req.param("id"));
  if (!goods) return refuse(c, "not found", NO_GOODS);
  const settings = await shopSettings(c.var.db);
  const form = fresh(testGoods, { by: await shopHand(c) });
  return pageAnswer(c, <GoodsTestPage frame={frameFor(c, settings.name)} tongue={settings} goods={goods} {...form} />);
});

goodsIn.post("/parts/goods-in/:id/tests", async (c) => {
  const settings = await shopSettings(c.var.db);
  const goods = await findGoodsIn(c.var.db, c.req.param("id"));
  if (!goods) return refuse(c, "not found", NO_GOODS);
  return pageDoor(c, testGoods, {
    on: { goods: c.req.param("id") },
    tongue: settings,
    done: () => "/parts/goods-in#goods-name",
    show: (again) =>
      pageAnswer(
        c,
        <GoodsTestPage frame={frameFor(c, settings.name)} tongue={settings} goods={goods} {...again} />,
        again.status,
      ),
  });
});

const NO_GOODS = { detail: "No such goods came in." };

async function show(
  c: Context<AppEnv>,
  settings: Settings,
  { status = 200, ...form }: AskedForm & { readonly status?: 200 | Again["status"] },
  say?: string,
) {
  const { db } = c.var;
  const [orders, goods, tested, kinds, sources, rateBook, line] = await Promise.all([
    openOrders(db),
    goodsInPage(db, LAST),
    goodsTested(db),
    kindsNear(db),
    sourcesKnown(db),
    shopRateBook(db),
    named(form.fields.get("orderLineId"), findOrderLine, db),
  ]);
  const { locale, currency } = settings;
  return pageAnswer(
    c,
    <GoodsInPage
      frame={frameFor(c, settings.name)}
      tongue={{ locale, currency }}
      orders={orders}
      goods={goods}
      shares={sharesGood(tested, rateBook)}
      kinds={kinds}
      sources={sources}
      {...form}
      say={say}
      {...(line && { line: { name: line.name, left: Math.max(0, line.pieces - line.came) } })}
    />,
    status,
  );
}
