/** The order list over all open jobs, marking a source's part of it as ordered, and each order. */
import { type Context, Hono } from "hono";
import { endOrder, orderFromList } from "../../acts/order.js";
import { shopOrderList } from "../../acts/partsToGet.js";
import { today } from "../../acts/today.js";
import type { AskedForm } from "../../pages/frame/ask.js";
import { OrderListPage } from "../../pages/parts/orderListPage.js";
import { OrderPage } from "../../pages/parts/orderPage.js";
import { findOrder } from "../../records/orders.js";
import { type Settings, shopSettings } from "../../records/settings.js";
import { money } from "../../wording/figures.js";
import { counted } from "../../wording/list.js";
import type { AppEnv } from "../bindings.js";
import { fresh, pageDoor } from "../doors/page.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { orderListFile } from "../papers/orderListFile.js";
import { refuse } from "../problems/refuse.js";
import { shopHand } from "./hand.js";

export const parts = new Hono<AppEnv>();

parts.get("/parts", async (c) => {
  const settings = await shopSettings(c.var.db);
  const asked = c.req.query("ordered");
  const [by, ordered, list] = await Promise.all([
    shopHand(c),
    asked === undefined ? undefined : findOrder(c.var.db, asked),
    listed(c, settings),
  ]);
  const form = fresh(orderFromList, { orderedOn: today(c.var.clock(), settings.timeZone), by });
  const say =
    ordered &&
    `Ordered from ${ordered.source}: ${counted(ordered.lines.length, "line")}, ${money(ordered.total, { locale: settings.locale, currency: ordered.currency })} with freight.`;
  return show(c, settings, form, list, say);
});

parts.get("/parts/order-list.csv", orderListFile);

parts.post("/parts/orders", async (c) => {
  const settings = await shopSettings(c.var.db);
  const day = today(c.var.clock(), settings.timeZone);
  const { list } = await shopOrderList(c.var.db, day);
  const serves = new Map(list.sources.flatMap((source) => source.lines.map((own) => [own.offer.id, own.jobs])));
  return pageDoor(c, orderFromList, {
    ...{ on: { serves }, tongue: settings },
    done: ({ id }) => `/parts?ordered=${id}`,
    show: async (again) => show(c, settings, again, await listed(c, settings)),
  });
});

parts.get("/parts/orders/:id", async (c) => showOrder(c, fresh(endOrder, { by: await shopHand(c) })));

parts.post("/parts/orders/:id/ending", async (c) => {
  const order = c.req.param("id");
  return pageDoor(c, endOrder, {
    ...{ on: { order }, tongue: await shopSettings(c.var.db) },
    done: () => `/parts/goods-in?ended=${encodeURIComponent(order)}`,
    show: (again) => showOrder(c, again),
  });
});

type Shown = AskedForm & { readonly status?: 404 | 409 | 422 };

async function showOrder(c: Context<AppEnv>, { status, ...form }: Shown) {
  const [settings, order] = await Promise.all([shopSettings(c.var.db), findOrder(c.var.db, c.req.param("id")!)]);
  if (!order) return refuse(c, "not found", { detail: "There is no such order." });
  return pageAnswer(c, <OrderPage frame={frameFor(c, settings.name)} tongue={settings} order={order} form={form} />, status);
}

const listed = (c: Context<AppEnv>, settings: Settings) => shopOrderList(c.var.db, today(c.var.clock(), settings.timeZone));

function show(
  c: Context<AppEnv>,
  settings: Settings,
  { status, ...form }: Shown,
  { list, jobs }: Awaited<ReturnType<typeof listed>>,
  say?: string,
) {
  const { locale, currency } = settings;
  return pageAnswer(
    c,
    <OrderListPage
      frame={frameFor(c, settings.name)}
      tongue={{ locale, currency }}
      list={list}
      jobs={jobs}
      form={form}
      say={say}
    />,
    status,
  );
}
