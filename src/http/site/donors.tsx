/** Donor units: listed, added, changed, pulled from, withdrawn. */
import { type Context, Hono } from "hono";
import { addDonor, donorName, pullFromDonor, replaceDonor, withdrawDonor } from "../../acts/donor.js";
import { openJobs } from "../../acts/partsToGet.js";
import { typedWith } from "../../acts/readForm.js";
import { today } from "../../acts/today.js";
import type { AskedForm } from "../../pages/frame/ask.js";
import { DonorPage, type DonorShown, DonorsPage } from "../../pages/parts/donorsPage.js";
import { type Donor, donors as records } from "../../records/donors.js";
import { findGoodsIn } from "../../records/goodsIn.js";
import { kindsNear, partKindNames } from "../../records/partKinds.js";
import { shopSettings } from "../../records/settings.js";
import { counted } from "../../wording/list.js";
import type { AppEnv } from "../bindings.js";
import { changing, fresh, NOT_A_FORM, pageDoor, seenIn, sentForm } from "../doors/page.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { shopHand } from "./hand.js";

export const donors = new Hono<AppEnv>();

const donorAt = (id: string): string => `/parts/donors/${encodeURIComponent(id)}`;
type Form = AskedForm & { readonly status?: 404 | 409 | 422 };

donors.get("/parts/donors", async (c) => {
  const { db } = c.var;
  const [shop, page] = await Promise.all([shopSettings(db), records.list(db, { limit: 100, after: c.req.query("after") })]);
  return pageAnswer(
    c,
    <DonorsPage
      frame={frameFor(c, shop.name)}
      tongue={shop}
      rows={await shown(c, page.rows)}
      {...(page.next && { next: `/parts/donors?after=${encodeURIComponent(page.next)}` })}
    />,
  );
});

donors.get("/parts/donors/new", async (c) => {
  const { currency, timeZone } = await shopSettings(c.var.db);
  return showNew(c, fresh(addDonor, { currency, boughtOn: today(c.var.clock(), timeZone) }));
});
donors.post("/parts/donors", async (c) =>
  pageDoor(c, addDonor, {
    ...{ on: {}, tongue: await shopSettings(c.var.db) },
    done: ({ id }) => `${donorAt(id)}?saved`,
    show: (again) => showNew(c, again),
  }),
);

donors.get("/parts/donors/:id", (c) => show(c, {}));
donors.post("/parts/donors/:id", async (c) =>
  pageDoor(c, replaceDonor, {
    on: (typed) => ({ id: c.req.param("id"), seen: seenIn(typed) }),
    tongue: await shopSettings(c.var.db),
    done: ({ id }) => `${donorAt(id)}?saved`,
    show: (form) => show(c, { form }),
  }),
);
donors.post("/parts/donors/:id/pulls", async (c) => {
  const typed = await sentForm(c);
  if (!typed) return refuse(c, "media type unsupported", NOT_A_FORM);
  const [job, item] = (typed.get("serves") ?? "").split(" ");
  return pageDoor(c, pullFromDonor, {
    ...{ on: { id: c.req.param("id") }, tongue: await shopSettings(c.var.db) },
    said: { typed: typedWith(typed, { job: job || undefined, item }), names: { job: "serves", item: "serves" } },
    done: ({ id }) => `${donorAt(c.req.param("id"))}?pulled=${encodeURIComponent(id)}`,
    show: (pull) => show(c, { pull }),
  });
});
donors.post("/parts/donors/:id/withdrawal", async (c) =>
  pageDoor(c, withdrawDonor, {
    ...{ on: { id: c.req.param("id") }, tongue: await shopSettings(c.var.db) },
    done: () => "/parts/donors",
    show: (withdrawal) => show(c, { withdrawal }),
  }),
);

async function shown(c: Context<AppEnv>, rows: readonly Donor[]): Promise<readonly DonorShown[]> {
  const names = await partKindNames(
    c.var.db,
    rows.flatMap(({ parts }) => parts.map(({ kind }) => kind)),
  );
  return rows.map((row) => ({
    ...{ id: row.id, name: donorName(row), boughtOn: row.boughtOn, currency: row.currency, cost: row.cost },
    parts: row.parts.map((part) => ({ ...part, name: names.get(part.kind) ?? part.kind })),
  }));
}

/** Those that hold something, and some more to type in. */
const rowsOf = ({ fields }: AskedForm): number =>
  Math.max(0, ...[...fields].map(([name, text]) => (text === "" ? 0 : Number(/^parts\.(\d+)\./.exec(name)?.[1] ?? -1) + 1))) + 4;

async function showNew(c: Context<AppEnv>, { status, ...form }: Form) {
  const shop = await shopSettings(c.var.db);
  return pageAnswer(
    c,
    <DonorPage
      frame={frameFor(c, shop.name)}
      tongue={shop}
      title="Add a donor unit"
      action="/parts/donors"
      form={form}
      rows={rowsOf(form)}
      kinds={await kindsNear(c.var.db)}
    />,
    status,
  );
}

interface Sent {
  readonly form?: Form;
  readonly pull?: Form;
  readonly withdrawal?: Form;
}

async function show(c: Context<AppEnv>, { form, pull, withdrawal }: Sent) {
  const { db } = c.var;
  const [shop, found, by] = await Promise.all([shopSettings(db), records.find(db, c.req.param("id")!), shopHand(c)]);
  if (!found) return refuse(c, "not found", { detail: "There is no such donor unit." });
  const [donor] = await shown(c, [found]);
  const { saved, pulled } = c.req.query();
  const came = pulled === undefined ? undefined : await findGoodsIn(db, pulled);
  const serves = (await openJobs(db)).flatMap(({ id, number, unit, parts }) =>
    parts
      .filter(({ part }) => found.parts.some(({ kind }) => kind === part.kind))
      .flatMap(({ part, takes }) => takes.map(({ item }) => [`${id} ${item}`, `${number} ${unit}: ${part.name}`] as const)),
  );
  // A person knows parts by name.
  const named = { ...found, parts: donor!.parts.map(({ name, ...part }) => ({ ...part, kind: name })) };
  const drawn = form ?? changing(replaceDonor, named, shop);
  return pageAnswer(
    c,
    <DonorPage
      frame={frameFor(c, shop.name)}
      tongue={shop}
      title={donor!.name}
      action={donorAt(found.id)}
      form={drawn}
      rows={rowsOf(drawn)}
      kinds={await kindsNear(db)}
      say={
        saved !== undefined
          ? "Saved."
          : came && `Pulled: ${counted(came.pieces, "piece")} of ${came.name}. Its list is shorter by as many.`
      }
      standing={{
        ...{ donor: donor!, serves, withdrawn: found.withdrawal },
        pull: pull ?? fresh(pullFromDonor, { by, pulledOn: today(c.var.clock(), shop.timeZone), pieces: "1" }),
        withdrawal: withdrawal ?? fresh(withdrawDonor, { by }),
      }}
    />,
    (form ?? pull ?? withdrawal)?.status,
  );
}
