/** Offers of a part: added, changed, confirmed, and withdrawn. */
import { type Context, Hono } from "hono";
import { addOffer, changeOffer, confirmOffer, withdrawOffer } from "../../acts/offer.js";
import { today } from "../../acts/today.js";
import { RecordPage } from "../../pages/parts/cataloguePage.js";
import { offers } from "../../records/offers.js";
import { partKinds } from "../../records/partKinds.js";
import { shopSettings } from "../../records/settings.js";
import type { AppEnv } from "../bindings.js";
import { changing, fresh, pageDoor, seenIn } from "../doors/page.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { type Form, kindAt } from "./catalogue.js";
import { shopHand } from "./hand.js";

export const offerPages = new Hono<AppEnv>();

const OFFER = [
  ...["source", "on", "currency", "price", "packSize", "leadDays", "state", "minimumPacks", "available", "freight"],
  ...["dutyPercent", "importTaxPercent", "parcelFee", "shareGood"],
];
const offerAt = (id: string): string => `/parts/offers/${encodeURIComponent(id)}`;

offerPages.get("/parts/kinds/:id/offers", async (c) => {
  const { timeZone, currency } = await shopSettings(c.var.db);
  const known = { kind: c.req.param("id"), currency, on: today(c.var.clock(), timeZone), packSize: "1", leadDays: "0" };
  return showNewOffer(c, fresh(addOffer, known));
});
offerPages.post("/parts/kinds/:id/offers", async (c) =>
  pageDoor(c, addOffer, {
    ...{ on: {}, tongue: await shopSettings(c.var.db) },
    done: ({ kind }) => `${kindAt(String(kind))}?saved`,
    show: (again) => showNewOffer(c, again),
  }),
);

offerPages.get("/parts/offers/:id", (c) => showOffer(c, {}));
offerPages.post("/parts/offers/:id", async (c) =>
  pageDoor(c, changeOffer, {
    on: (typed) => ({ id: c.req.param("id"), seen: seenIn(typed) }),
    tongue: await shopSettings(c.var.db),
    done: ({ kind }) => `${kindAt(String(kind))}?saved`,
    show: (form) => showOffer(c, { form }),
  }),
);
offerPages.post("/parts/offers/:id/withdrawal", async (c) =>
  pageDoor(c, withdrawOffer, {
    ...{ on: { id: c.req.param("id") }, tongue: await shopSettings(c.var.db) },
    done: ({ kind }) => kindAt(String(kind)),
    show: (withdrawal) => showOffer(c, { withdrawal }),
  }),
);

offerPages.get("/parts/offers/:id/confirmation", (c) => showConfirmation(c));
offerPages.post("/parts/offers/:id/confirmation", async (c) =>
  pageDoor(c, confirmOffer, {
    on: (typed) => ({ id: c.req.param("id"), seen: seenIn(typed) }),
    tongue: await shopSettings(c.var.db),
    done: ({ kind }) => `${kindAt(String(kind))}?saved`,
    show: (form) => showConfirmation(c, form),
  }),
);

async function showNewOffer(c: Context<AppEnv>, { status, ...form }: Form) {
  const { db } = c.var;
  const [shop, kind] = await Promise.all([shopSettings(db), partKinds.find(db, c.req.param("id")!)]);
  if (!kind) return refuse(c, "not found", { detail: "There is no such part kind." });
  return pageAnswer(
    c,
    <RecordPage
      frame={frameFor(c, shop.name)}
      title={`Add an offer of ${kind.name}`}
      action={`${kindAt(kind.id)}/offers`}
      form={form}
      asked={OFFER}
      back={{ href: kindAt(kind.id), name: kind.name }}
    />,
    status,
  );
}

async function offerShown(c: Context<AppEnv>) {
  const { db } = c.var;
  const [shop, offer] = await Promise.all([shopSettings(db), offers.find(db, c.req.param("id")!)]);
  if (!offer) return { absent: await refuse(c, "not found", { detail: "There is no such offer." }) };
  const name = (await partKinds.find(db, offer.kind))?.name ?? offer.kind;
  return { shop, offer, name, back: { href: kindAt(offer.kind), name } };
}

async function showOffer(c: Context<AppEnv>, { form, withdrawal }: { readonly form?: Form; readonly withdrawal?: Form }) {
  const shown = await offerShown(c);
  if (shown.absent) return shown.absent;
  const { shop, offer, name, back } = shown;
  return pageAnswer(
    c,
    <RecordPage
      frame={frameFor(c, shop.name)}
      title={`Offer of ${name} from ${offer.source}`}
      action={offerAt(offer.id)}
      form={form ?? changing(changeOffer, offer, shop)}
      asked={OFFER}
      withdrawal={withdrawal ?? fresh(withdrawOffer, { by: await shopHand(c) })}
      withdrawn={offer.withdrawal}
      back={back}
    />,
    (form ?? withdrawal)?.status,
  );
}

/** The price that stood, and today. */
async function showConfirmation(c: Context<AppEnv>, form?: Form) {
  const shown = await offerShown(c);
  if (shown.absent) return shown.absent;
  const { shop, offer, name, back } = shown;
  const again = { ...offer, on: today(c.var.clock(), shop.timeZone) };
  return pageAnswer(
    c,
    <RecordPage
      frame={frameFor(c, shop.name)}
      title={`Still offered: ${name} from ${offer.source}`}
      action={`${offerAt(offer.id)}/confirmation`}
      form={form ?? changing(changeOffer, again, shop)}
      asked={["on", "price"]}
      button="Confirm it"
      withdrawn={offer.withdrawal}
      back={back}
    />,
    form?.status,
  );
}
