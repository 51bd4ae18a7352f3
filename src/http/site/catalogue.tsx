/** The parts catalogue: parts found, added, changed, merged, and withdrawn. */
import { type Context, Hono } from "hono";
import { shopRateBook } from "../../acts/checked.js";
import { mergePartKind } from "../../acts/mergePartKind.js";
import { addPartKind, changePartKind, partKind, partStanding, withdrawPartKind } from "../../acts/partKind.js";
import type { RateBook } from "../../estimating/input.js";
import { meanShare, shareGoodOf } from "../../estimating/parts/shareGood.js";
import type { KindsFound } from "../../pages/form/context.js";
import type { AskedForm } from "../../pages/frame/ask.js";
import { CataloguePage, RecordPage } from "../../pages/parts/cataloguePage.js";
import { Merge, PartStanding, UsedOn } from "../../pages/parts/partStanding.js";
import { catalogued, experienceOf, saysAll } from "../../records/catalogue.js";
import { asOffer, offersFor } from "../../records/offers.js";
import { asPartKind, kindsNear, partKinds } from "../../records/partKinds.js";
import { shopSettings } from "../../records/settings.js";
import { offered } from "../../wording/rateBookParts.js";
import type { AppEnv } from "../bindings.js";
import { changing, fresh, pageDoor, seenIn } from "../doors/page.js";
import { findScriptFor, frameFor, pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { shopHand } from "./hand.js";

export const catalogue = new Hono<AppEnv>();

const ON_A_PAGE = 100;
/** Suggested while a name is typed. */
const ON_A_LIST = 12;

catalogue.get("/parts/kinds", async (c) => {
  const { db } = c.var;
  const [shop, book] = await Promise.all([shopSettings(db), shopRateBook(db)]);
  const typed = (c.req.query("q") ?? "").slice(0, 200);
  const withdrawn = c.req.query("withdrawn") === "yes";
  const from = Math.max(0, Math.trunc(Number(c.req.query("from")) || 0));
  const { rows, all } = await catalogued(db, saysAll(typed, book.partTypes), {
    ...{ from, limit: ON_A_PAGE, withdrawn, type: c.req.query("type") },
  });
  if (c.req.header("accept") === "application/json") {
    const few = rows.slice(0, ON_A_LIST).map(({ offers: _, ...kind }) => asPartKind(kind));
    const priced = await offersFor(
      db,
      few.map(({ id }) => id),
    );
    return c.json({ kinds: few, offers: priced.map(asOffer) } satisfies KindsFound, 200, { vary: "accept" });
  }
  const known = await experienceOf(
    db,
    rows.map(({ id }) => id),
  );
  const types = new Map(book.partTypes.map(({ id, name }) => [id, name]));
  const at = (start: number): string => {
    const query = {
      ...(typed && { q: typed }),
      ...(withdrawn && { withdrawn: "yes" }),
      ...(start > 0 && { from: String(start) }),
    };
    return `/parts/kinds?${new URLSearchParams(query)}`;
  };
  return pageAnswer(
    c,
    <CataloguePage
      frame={frameFor(c, shop.name)}
      script={findScriptFor(c)}
      tongue={shop}
      {...{ typed, withdrawn, from, all }}
      rows={rows.map(({ id, name, type, value, ratedVolts, form, stock = 0, offers }) => ({
        ...{ id, name, stock, offers },
        facts: [types.get(type) ?? type, value, ratedVolts !== undefined && `${ratedVolts} V`, form].filter(Boolean).join(", "),
        ...(known.has(id) && { lastPaid: known.get(id)!.last, tested: known.get(id)!.tested }),
      }))}
      {...(from > 0 && { before: at(Math.max(0, from - ON_A_PAGE)) })}
      {...(from + rows.length < all && rows.length > 0 && { next: at(from + ON_A_PAGE) })}
    />,
  );
});

/** A form as it comes back. */
export type Form = AskedForm & { readonly status?: 404 | 409 | 422 };
/** What was sent, where it comes back. */
interface Sent {
  readonly form?: Form;
  readonly withdrawal?: Form;
  readonly merging?: Form;
}
/** The shelf is counted on its own page. */
const KIND = Object.keys(partKind.fields.shape).filter((name) => name !== "stock");
export const kindAt = (id: string): string => `/parts/kinds/${encodeURIComponent(id)}`;

catalogue.get("/parts/kinds/new", (c) => showNewKind(c, fresh(addPartKind)));
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
    done: () => "/parts/kinds",
    show: (withdrawal) => showKind(c, { withdrawal }),
  }),
);
catalogue.post("/parts/kinds/:id/merging", async (c) =>
  pageDoor(c, mergePartKind, {
    ...{ on: { id: c.req.param("id") }, tongue: await shopSettings(c.var.db) },
    done: ({ withdrawal }) => `${kindAt(withdrawal!.into!)}?merged`,
    show: (merging) => showKind(c, { merging }),
  }),
);

const saved = (c: Context<AppEnv>) => {
  const { saved, merged } = c.req.query();
  if (merged !== undefined) return "Merged: all that named the other names this part now.";
  return saved === undefined ? undefined : "Saved.";
};

const kindOptions = ({ partTypes }: RateBook) => ({
  type: [["", "Choose"] as const, ...offered(partTypes).map(({ id, name }) => [id, name] as const)],
});

const CATALOGUE = { href: "/parts/kinds", name: "Catalogue" };

async function showNewKind(c: Context<AppEnv>, { status, ...form }: Form) {
  const shop = await shopSettings(c.var.db);
  return pageAnswer(
    c,
    <RecordPage
      frame={frameFor(c, shop.name)}
      title="Add a part"
      action="/parts/kinds"
      form={form}
      asked={["id", ...KIND]}
      options={kindOptions(await shopRateBook(c.var.db))}
      back={CATALOGUE}
    />,
    status,
  );
}

async function showKind(c: Context<AppEnv>, { form, withdrawal, merging }: Sent) {
  const { db } = c.var;
  const [shop, kind] = await Promise.all([shopSettings(db), partKinds.find(db, c.req.param("id")!)]);
  if (!kind) return refuse(c, "not found", { detail: "There is no such part kind." });
  const [own, { jobs, ...standing }, rateBook, twins, by] = await Promise.all([
    offersFor(db, [kind.id]),
    partStanding(db, kind.id, c.var.clock()),
    shopRateBook(db),
    kindsNear(db, kind.type),
    shopHand(c),
  ]);
  const merge = merging ?? fresh(mergePartKind, { by });
  const into = kind.withdrawal?.into;
  return pageAnswer(
    c,
    <RecordPage
      frame={frameFor(c, shop.name)}
      title={kind.name}
      action={kindAt(kind.id)}
      form={form ?? changing(changePartKind, kind, shop)}
      asked={KIND}
      options={kindOptions(rateBook)}
      withdrawal={withdrawal ?? fresh(withdrawPartKind, { by })}
      withdrawn={kind.withdrawal}
      back={CATALOGUE}
      wrong={new Map([...(merging?.errors ?? [])].map(([name, text]) => [name === "by" ? "merge-by" : name, text]))}
      lead={
        into === undefined ? (
          <PartStanding
            id={kind.id}
            tongue={shop}
            stock={kind.stock ?? 0}
            {...standing}
            offers={own
              .toSorted((a, b) => (a.on < b.on ? 1 : -1))
              .map((offer) => ({ ...offer, share: meanShare(shareGoodOf(asOffer(offer), rateBook.scarcity)) }))}
          />
        ) : (
          <p>
            Merged into <a href={kindAt(into)}>{(await partKinds.find(db, into))?.name ?? into}</a>.
          </p>
        )
      }
      say={saved(c)}
    >
      <UsedOn jobs={jobs} />
      {kind.withdrawal ? null : (
        <Merge
          action={`${kindAt(kind.id)}/merging`}
          form={merge}
          type={kind.type}
          kinds={twins.filter((twin) => twin !== kind.id && twin !== kind.name)}
        />
      )}
    </RecordPage>,
    (form ?? withdrawal ?? merging)?.status,
  );
}
