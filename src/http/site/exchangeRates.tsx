/** The shop's exchange rates: typed, changed, and withdrawn where one was a mistake. */
import { type Context, Hono } from "hono";
import { addExchangeRate, replaceExchangeRate, withdrawExchangeRate } from "../../acts/exchangeRate.js";
import { today } from "../../acts/today.js";
import type { AskedForm } from "../../pages/frame/ask.js";
import { RecordPage } from "../../pages/parts/cataloguePage.js";
import { ExchangeRatesPage } from "../../pages/parts/exchangeRatesPage.js";
import { exchangeRates as rates } from "../../records/exchangeRates.js";
import { shopSettings } from "../../records/settings.js";
import { day } from "../../wording/time.js";
import type { AppEnv } from "../bindings.js";
import { changing, fresh, pageDoor, seenIn } from "../doors/page.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { shopHand } from "./hand.js";

export const exchangeRates = new Hono<AppEnv>();

type Form = AskedForm & { readonly status?: 404 | 409 | 422 };
const HOME = "/parts/rates";
const SHOWN = 200;

exchangeRates.get(HOME, async (c) => {
  const { timeZone } = await shopSettings(c.var.db);
  return showAll(c, fresh(addExchangeRate, { on: today(c.var.clock(), timeZone) }));
});
exchangeRates.post(HOME, async (c) =>
  pageDoor(c, addExchangeRate, {
    ...{ on: {}, tongue: await shopSettings(c.var.db) },
    done: () => `${HOME}?saved`,
    show: (again) => showAll(c, again),
  }),
);
exchangeRates.get(`${HOME}/:id`, (c) => showOne(c, {}));
exchangeRates.post(`${HOME}/:id`, async (c) =>
  pageDoor(c, replaceExchangeRate, {
    on: (typed) => ({ id: c.req.param("id"), seen: seenIn(typed) }),
    tongue: await shopSettings(c.var.db),
    done: () => `${HOME}?saved`,
    show: (form) => showOne(c, { form }),
  }),
);
exchangeRates.post(`${HOME}/:id/withdrawal`, async (c) =>
  pageDoor(c, withdrawExchangeRate, {
    ...{ on: { id: c.req.param("id") }, tongue: await shopSettings(c.var.db) },
    done: () => HOME,
    show: (withdrawal) => showOne(c, { withdrawal }),
  }),
);

async function showAll(c: Context<AppEnv>, { status, ...form }: Form) {
  const { db } = c.var;
  const shop = await shopSettings(db);
  const { rows } = await rates.list(db, { limit: SHOWN, newestFirst: true });
  const say = c.req.query("saved") === undefined ? undefined : "Saved. Estimates use it from now on.";
  const shown = rows.toSorted((a, b) => (a.on < b.on ? 1 : a.on > b.on ? -1 : a.currency < b.currency ? -1 : 1));
  return pageAnswer(
    c,
    <ExchangeRatesPage frame={frameFor(c, shop.name)} tongue={shop} form={form} rates={shown} say={say} />,
    status,
  );
}

async function showOne(c: Context<AppEnv>, sent: { readonly form?: Form; readonly withdrawal?: Form }) {
  const { db } = c.var;
  const [shop, rate] = await Promise.all([shopSettings(db), rates.find(db, c.req.param("id")!)]);
  if (!rate) return refuse(c, "not found", { detail: "There is no such exchange rate." });
  return pageAnswer(
    c,
    <RecordPage
      frame={frameFor(c, shop.name)}
      title={`Exchange rate of ${rate.currency}, ${day(rate.on, shop.locale)}`}
      action={`${HOME}/${encodeURIComponent(rate.id)}`}
      form={sent.form ?? changing(replaceExchangeRate, rate, shop)}
      asked={["currency", "rate", "on", "source"]}
      back={{ href: HOME, name: "All exchange rates" }}
      withdrawn={rate.withdrawal}
      withdrawal={sent.withdrawal ?? fresh(withdrawExchangeRate, { by: await shopHand(c) })}
    />,
    (sent.form ?? sent.withdrawal)?.status,
  );
}
