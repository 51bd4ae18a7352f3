/** The parts catalogue and its offers: added, changed, and withdrawn where they were a mistake. */
import { type Context, Hono } from "hono";
import { shopRateBook } from "../../acts/checked.js";
import { addOffer, changeOffer, withdrawOffer } from "../../acts/offer.js";
import { addPartKind, changePartKind, partKind, withdrawPartKind } from "../../acts/partKind.js";
import { today } from "../../acts/today.js";
import type { AskedForm } from "../../pages/frame/ask.js";
import { CataloguePage } from "../../pages/parts/cataloguePage.js";
import { offers, offersFor } from "../../records/offers.js";
import { partKinds } from "../../records/partKinds.js";
import { shopSettings } from "../../records/settings.js";
import type { AppEnv } from "../bindings.js";
import { changing, fresh, pageDoor, seenIn } from "../doors/page.js";
import { refuse } from "../problems/refuse.js";
import { frameFor, pageAnswer } from "./frame.js";
import { shopHand } from "./hand.js";

export const catalogue = new Hono<AppEnv>();

type Form = AskedForm & { readonly status?: 404 | 409 | 422 };
/** What was sent, where it comes back. */
interface Sent {
  readonly form?: Form;
  readonly withdrawal?: Form;
}
/** The shelf is counted on its own page. */
const KIND = Object.keys(partKind.fields.shape).filter((name) => name !== "stock");
const OFFER = ["source", "on", "price", "packSize", "leadDays", "state", "minimumPacks", "available", "freight", "shareGood"];
const kindAt = (id: string): string => `/parts/kinds/${encodeURIComponent(id)}`;
const offerAt = (id: string): string => `/parts/offers/${encodeURIComponent(id)}`;

catalogue.get("/parts/kinds", (c) => showNewKind(c, fresh(addPartKind)));
catalogue.post("/parts/kinds", async (c) =>
  pageDoor(c, addPartKind, {
    ...{ on: {}, tongue: await shopSettings(c.var.db) },
    done: ({ id }) => `${kindAt(id)}?saved`,
    show: (again) => showNewKind(c, again),
  }),
);

catalogue.get("/parts/kinds/:id", (c) => showKind(c, {}));
catalogue.post("/parts/kinds/:id", async (c) =>
  pageDoor(c, changePartKind, {
    on: (typed) => ({ id: c.req.param("id"), seen: seenIn(typed) }),
    tongue: await shopSettings(c.var.db),
    done: ({ id }) => `${kindAt(id)}?saved`,
    show: (form) => showKind(c, { form }),
  }),
);
catalogue.post("/parts/kinds/:id/withdrawal", async (c) =>
  pageDoor(c, withdrawPartKind, {
    ...{ on: { id: c.req.param("id") }, tongue: await shopSettings(c.var.db) },
    done: () => "/parts/stock",
    show: (withdrawal) => showKind(c, { withdrawal }),
  }),
);

catalogue.get("/parts/kinds/:id/offers", async (c) => {
  const { timeZone, currency } = await shopSettings(c.var.db);
  const known = { kind: c.req.param("id"), currency, on: today(c.var.clock(), timeZone), packSize: "1", leadDays: "0" };
  return showNewOffer(c, fresh(addOffer, known));
});
catalogue.post("/parts/kinds/:id/offers", async (c) =>
  pageDoor(c, addOffer, {
    ...{ on: {}, tongue: await shopSettings(c.var.db) },
    done: ({ kind }) => `${kindAt(String(kind))}?saved`,
    show: (again) => showNewOffer(c, again),
  }),
);

catalogue.get("/parts/offers/:id", (c) => showOffer(c, {}));
catalogue.post("/parts/offers/:id", async (c) =>
  pageDoor(c, changeOffer, {
    on: (typed) => ({ id: c.req.param("id"), seen: seenIn(typed) }),
    tongue: await shopSettings(c.var.db),
    done: ({ kind }) => `${kindAt(String(kind))}?saved`,
    show: (form) => showOffer(c, { form }),
  }),
);
catalogue.post("/parts/offers/:id/withdrawal", async (c) =>
  pageDoor(c, withdrawOffer, {
    ...{ on: { id: c.req.param("id") }, tongue: await shopSettings(c.var.db) },
    done: ({ kind }) => kindAt(String(kind)),
    show: (withdrawal) => showOffer(c, { withdrawal }),
  }),
);

const saved = (c: Context<AppEnv>) => (c.req.query("saved") === undefined ? undefined : "Saved.");

const kindOptions = async (c: Context<AppEnv>) => ({
  type: [["", "Choose"] as const, ...(await shopRateBook(c.var.db)).partTypes.map(({ id, name }) => [id, name] as const)],
});

async function showNewKind(c: Context<AppEnv>, { status, ...form }: Form) {
  const shop = await shopSettings(c.var.db);
  return pageAnswer(
    c,
    <CataloguePage
      frame={frameFor(c, shop.name)}
      title="Add a part"
      action="/parts/kinds"
      form={form}
      asked={["id", ...KIND]}
      options={await kindOptions(c)}
    />,
    status,
  );
}

async function showKind(c: Context<AppEnv>, { form, withdrawal }: Sent) {
  const { db } = c.var;
  const [shop, kind] = [await shopSettings(db), await partKinds.find(db, c.req.param("id")!)];
  if (!kind) return refuse(c, "not found", { detail: "There is no such part kind." });
  const own = await offersFor(db, [kind.id]);
  return pageAnswer(
    c,
    <CataloguePage
      frame={frameFor(c, shop.name)}
      title={kind.name}
      action={kindAt(kind.id)}
      form={form ?? changing(changePartKind, kind, shop)}
      asked={KIND}
      options={await kindOptions(c)}
      withdrawal={withdrawal ?? fresh(withdrawPartKind, { by: await shopHand(c) })}
      withdrawn={kind.withdrawal}
      back={{ href: `/parts/stock/${encodeURIComponent(kind.id)}`, name: "Its movements" }}
      offers={{
        add: `${kindAt(kind.id)}/offers`,
        rows: own.toSorted((a, b) => (a.on < b.on ? 1 : -1)),
        tongue: shop,
      }}
      say={saved(c)}
    />,
    (form ?? withdrawal)?.status,
  );
}

async function showNewOffer(c: Context<AppEnv>, { status, ...form }: Form) {
  const { db } = c.var;
  const [shop, kind] = [await shopSettings(db), await partKinds.find(db, c.req.param("id")!)];
  if (!kind) return refuse(c, "not found", { detail: "There is no such part kind." });
  return pageAnswer(
    c,
    <CataloguePage
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

async function showOffer(c: Context<AppEnv>, { form, withdrawal }: Sent) {
  const { db } = c.var;
  const [shop, offer] = [await shopSettings(db), await offers.find(db, c.req.param("id")!)];
  if (!offer) return refuse(c, "not found", { detail: "There is no such offer." });
  const name = (await partKinds.find(db, offer.kind))?.name ?? offer.kind;
  return pageAnswer(
    c,
    <CataloguePage
      frame={frameFor(c, shop.name)}
      title={`Offer of ${name} from ${offer.source}`}
      action={offerAt(offer.id)}
      form={form ?? changing(changeOffer, offer, shop)}
      asked={OFFER}
      withdrawal={withdrawal ?? fresh(withdrawOffer, { by: await shopHand(c) })}
      withdrawn={offer.withdrawal}
      back={{ href: kindAt(offer.kind), name }}
    />,
    (form ?? withdrawal)?.status,
  );
}
