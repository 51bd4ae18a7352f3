/** Orders still to come, and taking parts in. */

import { type Context, Hono } from "hono";
import { uuidv7 } from "uuidv7";
import { sharesGood } from "../../estimating/closeout/learning/shareGood.js";
import { isDay } from "../../estimating/day.js";
import { OFFER_STATES } from "../../estimating/lists.js";
import { named } from "../../pages/form/named.js";
import { choice, count, line, money, reading } from "../../pages/form/reading.js";
import { GoodsInPage } from "../../pages/parts/goodsInPage.js";
import { GoodsTestPage } from "../../pages/parts/goodsTestPage.js";
import { errorsIn, plainContext } from "../../pages/revise/smallForm.js";
import { bringIn, findGoodsIn, goodsInPage, goodsTested, testGoods } from "../../records/goodsIn.js";
import { offers, sourcesKnown } from "../../records/offers.js";
import { findOrder, findOrderLine, openOrders } from "../../records/orders.js";
import { kindNames } from "../../records/partKinds.js";
import { type Settings, shopSettings } from "../../records/settings.js";
import { counted } from "../../wording/list.js";
import { shopRateBook } from "../api/checked.js";
import type { AppEnv } from "../bindings.js";
import { goodsInFault } from "../orderFaults.js";
import { refuse } from "../problems/refuse.js";
import { today } from "../today.js";
import { frameFor, pageAnswer } from "./frame.js";
import { shopHand } from "./hand.js";
import { NOT_A_FORM, sentForm } from "./sentForm.js";
import { tokenOf } from "./token.js";

export const goodsIn = new Hono<AppEnv>();

const LAST = 30;
const MOST = 1_000_000;

goodsIn.get("/parts/goods-in", async (c) => {
  const settings = await shopSettings(c.var.db);
  const line = await findOrderLine(c.var.db, c.req.query("line") ?? "");
  const offer = line && (await offers.find(c.var.db, line.offerId));
  const fields = new Map([
    ["token", uuidv7()],
    ["receivedOn", today(c.var.clock(), settings.timeZone)],
    ["by", await shopHand(c)],
    ...(line && offer
      ? ([
          ["orderLineId", line.id],
          ["kind", line.name],
          ["source", offer.source],
          ["state", offer.state],
          ["pieces", String(Math.max(0, line.pieces - line.came))],
          ["packSize", String(offer.packSize)],
        ] as const)
      : []),
  ] as const);
  const goods = await findGoodsIn(c.var.db, c.req.query("in") ?? "");
  const ended = await findOrder(c.var.db, c.req.query("ended") ?? "");
  const say = goods
    ? `In: ${counted(goods.pieces, "piece")} of ${goods.name}. The shelf and the offers know of it.`
    : ended && `The order from ${ended.source} is ended.`;
  return show(c, settings, fields, { say });
});

goodsIn.post("/parts/goods-in", async (c) => {
  const sent = await sentForm(c);
  if (!sent) return refuse(c, "media type unsupported", NOT_A_FORM);
  const { fields } = sent;
  const settings = await shopSettings(c.var.db);
  const orderLineId = fields.get("orderLineId")?.trim() || undefined;
  const orderLine = await findOrderLine(c.var.db, orderLineId ?? "");
  // What was ordered in another currency is paid in it.
  const currency = (orderLine && (await findOrder(c.var.db, orderLine.orderId)))?.currency ?? settings.currency;
  const tongue = { locale: settings.locale, currency };
  const at = reading(plainContext(today(c.var.clock(), settings.timeZone), tongue, await shopRateBook(c.var.db)));
  const of = (name: string) => fields.get(name);
  const kind = named(at, "kind", of("kind"), await kindNames(c.var.db));
  const source = line(at, "source", of("source"));
  const state = choice(at, "state", of("state"), OFFER_STATES);
  const [pieces, packSize, leadDays] = [
    count(at, "pieces", of("pieces")),
    count(at, "packSize", of("packSize")),
    count(at, "leadDays", of("leadDays")),
  ];
  const [paid, freight] = [money(at, "paid", of("paid")), money(at, "freight", of("freight"))];
  const [good, bad] = [count(at, "good", of("good")), count(at, "bad", of("bad"))];
  const by = line(at, "by", of("by"), 200);
  const note = line(at, "note", of("note"));
  const receivedOn = of("receivedOn")?.trim() ?? "";
  const errors = errorsIn(at);
  const wrong = (field: string, is: boolean, text: string) => {
    if (is && !errors.has(field)) errors.set(field, text);
  };
  const noCount = (value: number | undefined, least: number) =>
    value !== undefined && (!Number.isInteger(value) || value < least || value > MOST);
  wrong("kind", !kind, "Part: choose one of the catalogue.");
  wrong("source", !source, "Source: say where it came from.");
  wrong("state", !state, "State: choose one.");
  wrong("pieces", pieces === undefined || noCount(pieces, 1), "Pieces: give a whole number of 1 or more.");
  wrong("paid", paid === undefined, "Price paid: give the amount; 0 where it was free.");
  wrong("paid", paid !== undefined && paid < 0, "Price paid: give an amount of 0 or more.");
  wrong("freight", freight !== undefined && freight < 0, "Freight paid: give an amount of 0 or more.");
  wrong("packSize", noCount(packSize, 1), "Pieces in a pack: give a whole number of 1 or more.");
  wrong("leadDays", noCount(leadDays, 0), "Days from order to arrival: give a whole number of 0 or more.");
  wrong("receivedOn", !isDay(receivedOn), "Came in on: write it as year, month, day, such as 2026-11-25.");
  wrong("good", noCount(good, 0), "Tested good: give a whole number of 0 or more.");
  wrong("bad", noCount(bad, 0), "Tested bad: give a whole number of 0 or more.");
  wrong("by", !by, "Who took it in: type the name.");
  if (errors.size > 0 || !kind || !source || !state || !by || pieces === undefined || paid === undefined)
    return show(c, settings, fields, { errors });

  const value = {
    ...{ kind, source, state, pieces, paid, receivedOn, by, currency },
    ...(freight !== undefined && { freight }),
    ...(packSize !== undefined && { packSize }),
    ...(leadDays !== undefined && { leadDays }),
    ...(note !== undefined && { note }),
    ...(orderLineId !== undefined && { orderLineId }),
    ...((good !== undefined || bad !== undefined) && { tested: { good: good ?? 0, bad: bad ?? 0 } }),
  };
  const outcome = await bringIn(c.var.db, tokenOf(fields), value, c.var.clock().toISOString());
  if (outcome.is !== "in") {
    const { field, text } = goodsInFault(outcome);
    return show(c, settings, fields, { errors: new Map([[field === "orderLineId" ? "kind" : field, text]]) });
  }
  return c.redirect(`/parts/goods-in?in=${encodeURIComponent(outcome.record.id)}`, 303);
});

goodsIn.get("/parts/goods-in/:id/tests", async (c) => {
  const goods = await findGoodsIn(c.var.db, c.req.param("id"));
  if (!goods) return refuse(c, "not found", NO_GOODS);
  const settings = await shopSettings(c.var.db);
  const fields = new Map([
    ["token", uuidv7()],
    ["by", await shopHand(c)],
  ]);
  return pageAnswer(
    c,
    <GoodsTestPage frame={frameFor(c, settings.name)} tongue={settings} goods={goods} fields={fields} errors={new Map()} />,
  );
});

goodsIn.post("/parts/goods-in/:id/tests", async (c) => {
  const sent = await sentForm(c);
  if (!sent) return refuse(c, "media type unsupported", NOT_A_FORM);
  const { fields } = sent;
  const goods = await findGoodsIn(c.var.db, c.req.param("id"));
  if (!goods) return refuse(c, "not found", NO_GOODS);
  const settings = await shopSettings(c.var.db);
  const at = reading(plainContext(today(c.var.clock(), settings.timeZone), settings, await shopRateBook(c.var.db)));
  const [good = 0, bad = 0] = [count(at, "good", fields.get("good")), count(at, "bad", fields.get("bad"))];
  const by = line(at, "by", fields.get("by"), 200);
  const errors = errorsIn(at);
  for (const [field, value] of Object.entries({ good, bad }))
    if (!errors.has(field) && (!Number.isInteger(value) || value < 0))
      errors.set(field, `${field === "good" ? "Good" : "Bad"}: give a whole number of 0 or more.`);
  if (good + bad === 0 && errors.size === 0) errors.set("good", "Good: give how many were good, or how many bad.");
  if (!by && !errors.has("by")) errors.set("by", "Who tested: type the name.");
  const refused = () =>
    pageAnswer(
      c,
      <GoodsTestPage frame={frameFor(c, settings.name)} tongue={settings} goods={goods} fields={fields} errors={errors} />,
      422,
    );
  if (errors.size > 0 || !by) return refused();
  const test = { id: tokenOf(fields), goodsInId: goods.id, good, bad, by };
  const outcome = await testGoods(c.var.db, test, c.var.clock().toISOString());
  if (outcome.is === "too many tested") {
    errors.set("good", goodsInFault(outcome).text);
    return refused();
  }
  return c.redirect("/parts/goods-in#goods-name", 303);
});

const NO_GOODS = { detail: "No such goods came in." };

interface Shown {
  readonly errors?: ReadonlyMap<string, string>;
  readonly say?: string | undefined;
}

async function show(
  c: Context<AppEnv>,
  settings: Settings,
  fields: ReadonlyMap<string, string>,
  { errors = new Map(), say }: Shown,
) {
  const { db } = c.var;
  const [orders, goods, tested, kinds, sources, rateBook, line] = await Promise.all([
    openOrders(db),
    goodsInPage(db, LAST),
    goodsTested(db),
    kindNames(db),
    sourcesKnown(db),
    shopRateBook(db),
    findOrderLine(db, fields.get("orderLineId") ?? ""),
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
      kinds={kinds.map(({ name }) => name)}
      sources={sources}
      fields={fields}
      errors={errors}
      say={say}
      {...(line && { line: { name: line.name, left: Math.max(0, line.pieces - line.came) } })}
    />,
    errors.size > 0 ? 422 : 200,
  );
}
