/** The page of everything that comes in and goes out, and one owner's data with its erasure. */
import { type Context, Hono } from "hono";
import { eraseForSure, swept } from "../../acts/erasure/eraseOwner.js";
import { ERASED } from "../../acts/erasure/without.js";
import { DataPage } from "../../pages/inOut/dataPage.js";
import { OwnerPage, OwnersPage } from "../../pages/inOut/ownerPage.js";
import { jobs } from "../../records/jobs.js";
import { owners, ownersNamed } from "../../records/owners.js";
import { listPhotos } from "../../records/photos.js";
import { shopSettings } from "../../records/settings.js";
import { unitsOf } from "../../records/units.js";
import type { AppEnv } from "../bindings.js";
import { SHEET_NAMES } from "../dataOut/sheets.js";
import { type Again, pageDoor } from "../doors/page.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { mayUse } from "../who.js";

export const dataOut = new Hono<AppEnv>();
const SHOWN = 50;

dataOut.get("/data", async (c) => {
  const { name } = await shopSettings(c.var.db);
  return pageAnswer(
    c,
    <DataPage frame={frameFor(c, name)} sheets={SHEET_NAMES} mayTakeOut={mayUse(c.var, "GET", "/data/owners")} />,
  );
});

dataOut.get("/data/owners", async (c) => {
  const shop = await shopSettings(c.var.db);
  const name = c.req.query("name")?.trim() ?? "";
  const found = await ownersNamed(c.var.db, name, SHOWN + 1);
  const rows = found.slice(0, SHOWN).map(({ id, name: called, email, phone }) => ({ id, name: called, contact: email ?? phone }));
  return pageAnswer(c, <OwnersPage frame={frameFor(c, shop.name)} name={name} rows={rows} more={found.length > SHOWN} />);
});

dataOut.get("/data/owners/:id", (c) => {
  const erased = c.req.query("erased");
  return show(c, erased === undefined ? {} : { say: erased === "held" ? HELD : "Erased." });
});

dataOut.post("/data/owners/:id/erasure", async (c) => {
  const owner = c.req.param("id");
  return pageDoor(c, eraseForSure, {
    ...{ on: { owner }, tongue: await shopSettings(c.var.db) },
    done: () => `/data/owners/${encodeURIComponent(owner)}?erased`,
    once: async () => {
      const held = !(await swept(c.var, owner));
      return c.redirect(`/data/owners/${encodeURIComponent(owner)}?erased${held ? "=held" : ""}`, 303);
    },
    show: (form) => show(c, { form }),
  });
});

const HELD =
  "Erased. The database could not be rewritten, so its free space may still hold some of it; ask whoever keeps the database.";

interface Shown {
  readonly form?: Pick<Again, "fields" | "errors" | "status">;
  readonly say?: string;
}

async function show(c: Context<AppEnv>, { form, say }: Shown) {
  const { db } = c.var;
  const id = c.req.param("id")!;
  const owner = await owners.find(db, id);
  if (!owner) return refuse(c, "not found", { detail: "There is no such owner." });
  const [shop, own, units] = await Promise.all([shopSettings(db), jobs.ofOwner(db, id), unitsOf(db, id)]);
  let photos = 0;
  for (const job of own) photos += (await listPhotos(db, job.id)).length;
  return pageAnswer(
    c,
    <OwnerPage
      frame={frameFor(c, shop.name)}
      id={id}
      name={owner.name}
      erased={owner.name === ERASED}
      units={units.length}
      jobs={own.length}
      photos={photos}
      fields={form?.fields ?? new Map()}
      errors={form?.errors ?? new Map()}
      say={say}
      staff={c.var.staff?.name}
    />,
    form?.status,
  );
}
