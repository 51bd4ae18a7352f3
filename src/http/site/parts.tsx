/** The order list over all open jobs, and marking a source's part of it as ordered. */
import { type Context, Hono } from "hono";
import { uuidv7 } from "uuidv7";
import { shopRateBook } from "../../acts/checked.js";
import { today } from "../../acts/today.js";
import { orderListCsv } from "../../documents/orderListCsv.js";
import { isDay } from "../../estimating/day.js";
import { idOf } from "../../pages/form/fields.js";
import { count, line, note as longText, reading } from "../../pages/form/reading.js";
import { OrderListPage, packsField, sourceKey } from "../../pages/parts/orderListPage.js";
import { OrderPage } from "../../pages/parts/orderPage.js";
import { errorsIn, plainContext } from "../../pages/revise/smallForm.js";
import { offersWith } from "../../records/offers.js";
import { shopOrderList } from "../../records/orderList.js";
import { endOrder, findOrder, placeOrder } from "../../records/orders.js";
import { type Settings, shopSettings } from "../../records/settings.js";
import { money } from "../../wording/figures.js";
import { counted } from "../../wording/list.js";
import type { AppEnv } from "../bindings.js";
import { orderFaultText } from "../orderFaults.js";
import { refuse } from "../problems/refuse.js";
import { frameFor, pageAnswer } from "./frame.js";
import { shopHand } from "./hand.js";
import { NOT_A_FORM, sentForm } from "./sentForm.js";
import { tokenOf } from "./token.js";

export const parts = new Hono<AppEnv>();

parts.get("/parts", async (c) => {
  const settings = await shopSettings(c.var.db);
  const fields = new Map([
    ["token", uuidv7()],
    ["orderedOn", today(c.var.clock(), settings.timeZone)],
    ["by", await shopHand(c)],
  ]);
  const ordered = await findOrder(c.var.db, c.req.query("ordered") ?? "");
  const say =
    ordered &&
    `Ordered from ${ordered.source}: ${counted(ordered.lines.length, "line")}, ${money(ordered.total, { locale: settings.locale, currency: ordered.currency })} with freight.`;
  return show(c, settings, fields, { say });
});

parts.get("/parts/order-list.csv", async (c) => {
  const { timeZone } = await shopSettings(c.var.db);
  const day = today(c.var.clock(), timeZone);
  const { list, jobs } = await shopOrderList(c.var.db, day, await shopRateBook(c.var.db));
  const numbers = new Map([...jobs].map(([id, { number }]) => [id, number]));
  return c.body(orderListCsv(list, numbers), 200, {
    "content-type": "text/csv; charset=utf-8; header=present",
    "content-disposition": `attachment; filename="order-list-${day}.csv"`,
  });
});

parts.post("/parts/orders", async (c) => {
  const sent = await sentForm(c);
  if (!sent) return refuse(c, "media type unsupported", NOT_A_FORM);
  const { fields, intent } = sent;
  const settings = await shopSettings(c.var.db);
  const rateBook = await shopRateBook(c.var.db);
  const day = today(c.var.clock(), settings.timeZone);
  const { list } = await shopOrderList(c.var.db, day, rateBook);

  const at = reading(plainContext(day, settings, rateBook));
  const by = line(at, "by", fields.get("by"), 200);
  const note = longText(at, "note", fields.get("note"));
  const orderedOn = fields.get("orderedOn")?.trim() ?? "";
  const named = [...fields.keys()].filter((name) => name.startsWith("packs.")).map((name) => idOf(name.slice("packs.".length)));
  const known = (await offersWith(c.var.db, named)).filter((offer) => sourceKey(offer) === intent);
  const wanted = known.map((offer) => ({ offer, packs: count(at, packsField(offer.id), fields.get(packsField(offer.id))) ?? 0 }));
  const errors = errorsIn(at);
  for (const { offer, packs } of wanted) {
    const field = packsField(offer.id);
    const minimum = offer.minimumPacks ?? 1;
    if (errors.has(field) || packs === 0) continue;
    if (!Number.isInteger(packs) || packs < 0 || packs > 1_000_000)
      errors.set(field, "Packs: give a whole number; 0 leaves the part out.");
    else if (packs < minimum) errors.set(field, orderFaultText({ is: "below minimum", offer: offer.id, packs, minimum }));
  }
  if (!by) errors.set("by", errors.get("by") ?? "Who orders: type the name.");
  if (!isDay(orderedOn)) errors.set("orderedOn", "Ordered on: write it as year, month, day, such as 2026-11-25.");
  const lines = wanted.filter(({ packs }) => packs > 0);
  if (intent === "") errors.set("", "Nothing was ordered: press the button below the source that you order from.");
  if (lines.length === 0 && errors.size === 0)
    errors.set("", "Nothing to order: that source has no parts on the list any more, or all its packs are 0.");
  if (errors.size > 0 || !by) return show(c, settings, fields, { errors });

  const serves = new Map(list.sources.flatMap((source) => source.lines.map((own) => [own.offer.id, own.jobs])));
  const order = {
    ...{ source: lines[0]!.offer.source, orderedOn, by, ...(note !== undefined && { note }) },
    lines: lines.map(({ offer, packs }) => ({ offer: offer.id, packs, jobs: serves.get(offer.id) ?? [] })),
  };
  const outcome = await placeOrder(c.var.db, tokenOf(fields), order, c.var.clock().toISOString());
  if (outcome.is !== "ordered")
    return show(c, settings, fields, { errors: new Map([[packsField(outcome.offer), orderFaultText(outcome)]]) });
  return c.redirect(`/parts?ordered=${outcome.record.id}`, 303);
});

parts.get("/parts/orders/:id", async (c) => {
  const settings = await shopSettings(c.var.db);
  const order = await findOrder(c.var.db, c.req.param("id"));
  if (!order) return refuse(c, "not found", { detail: "There is no such order." });
  const fields = new Map([["by", await shopHand(c)]]);
  return pageAnswer(
    c,
    <OrderPage frame={frameFor(c, settings.name)} tongue={settings} order={order} fields={fields} errors={new Map()} />,
  );
});

parts.post("/parts/orders/:id/ending", async (c) => {
  const sent = await sentForm(c);
  if (!sent) return refuse(c, "media type unsupported", NOT_A_FORM);
  const settings = await shopSettings(c.var.db);
  const order = await findOrder(c.var.db, c.req.param("id"));
  if (!order) return refuse(c, "not found", { detail: "There is no such order." });
  const { fields } = sent;
  const at = reading(plainContext(today(c.var.clock(), settings.timeZone), settings, await shopRateBook(c.var.db)));
  const [by, reason] = [line(at, "by", fields.get("by"), 200), line(at, "reason", fields.get("reason"))];
  const errors = errorsIn(at);
  if (!reason && !errors.has("reason")) errors.set("reason", "Why: say why the rest will not come.");
  if (!by && !errors.has("by")) errors.set("by", "Who says so: type the name.");
  if (!by || !reason || errors.size > 0)
    return pageAnswer(
      c,
      <OrderPage frame={frameFor(c, settings.name)} tongue={settings} order={order} fields={fields} errors={errors} />,
      422,
    );
  await endOrder(c.var.db, order.id, { by, reason }, c.var.clock().toISOString());
  return c.redirect(`/parts/goods-in?ended=${encodeURIComponent(order.id)}`, 303);
});

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
  const { list, jobs } = await shopOrderList(c.var.db, today(c.var.clock(), settings.timeZone), await shopRateBook(c.var.db));
  const { locale, currency } = settings;
  return pageAnswer(
    c,
    <OrderListPage
      frame={frameFor(c, settings.name)}
      tongue={{ locale, currency }}
      list={list}
      jobs={jobs}
      fields={fields}
      errors={errors}
      say={say}
    />,
    errors.size > 0 ? 422 : 200,
  );
}
