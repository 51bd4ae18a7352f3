/** The shelf, page by page, and counting it anew. */
import { type Context, Hono } from "hono";
import { countShelf } from "../../acts/countStock.js";
import type { AskedForm } from "../../pages/frame/ask.js";
import { MovementsPage, StockPage } from "../../pages/parts/stockPage.js";
import { jobNumbers } from "../../records/openNeeds.js";
import { partKinds } from "../../records/partKinds.js";
import { shopSettings } from "../../records/settings.js";
import { type Movement, movementsOf, shelf, stockOf } from "../../records/stock.js";
import { counted } from "../../wording/list.js";
import { moment } from "../../wording/time.js";
import type { AppEnv } from "../bindings.js";
import { fresh, pageDoor } from "../doors/page.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { shopHand } from "./hand.js";

export const stock = new Hono<AppEnv>();

const ON_A_PAGE = 100;
type Form = AskedForm & { readonly status?: 404 | 409 | 422 };

stock.get("/parts/stock", async (c) => {
  const done = Number(c.req.query("counted"));
  const say = Number.isSafeInteger(done) && done > 0 ? `${counted(done, "count")} recorded.` : undefined;
  return show(c, fresh(countShelf, { by: await shopHand(c) }), say);
});

stock.post("/parts/stock", async (c) => {
  const after = c.req.query("after");
  return pageDoor(c, countShelf, {
    ...{ on: {}, tongue: await shopSettings(c.var.db) },
    done: ({ length }) => `/parts/stock?counted=${length}${after ? `&after=${encodeURIComponent(after)}` : ""}`,
    show: (again) => show(c, again),
  });
});

const WHAT: Readonly<Record<Movement["why"], string>> = {
  "goods in": "Came in",
  "used on job": "Used on",
  "put back": "Withdrawn from",
  counted: "Counted",
};

stock.get("/parts/stock/:kind", async (c) =>
  showKind(
    c,
    c.req.param("kind"),
    fresh(countShelf, { by: await shopHand(c) }),
    "counted" in c.req.query() ? "Recorded." : undefined,
  ),
);

stock.post("/parts/stock/:kind", async (c) => {
  const id = c.req.param("kind");
  return pageDoor(c, countShelf, {
    ...{ on: {}, tongue: await shopSettings(c.var.db) },
    done: () => `/parts/stock/${encodeURIComponent(id)}?counted`,
    show: (again) => showKind(c, id, again),
  });
});

async function showKind(c: Context<AppEnv>, id: string, { status, ...form }: Form, say?: string) {
  const kind = await partKinds.find(c.var.db, id);
  if (!kind) return refuse(c, "not found", { detail: "There is no such part kind." });
  const { name, locale, timeZone } = await shopSettings(c.var.db);
  const moves = await movementsOf(c.var.db, id, ON_A_PAGE);
  const numbers = await jobNumbers(
    c.var.db,
    moves.flatMap(({ jobId }) => jobId ?? []),
  );
  const pieces = (await stockOf(c.var.db, [id])).get(id) ?? 0;
  const rows = moves.map(({ at, why, change, beyond, standsAt, reason, jobId, by }) => ({
    ...{ at: moment(at, locale, timeZone), by, change, beyond, standsAt },
    what: reason === undefined ? WHAT[why] : `${WHAT[why]}: ${reason}`,
    ...(jobId !== undefined && { job: { id: jobId, number: numbers.get(jobId) ?? jobId } }),
  }));
  return pageAnswer(
    c,
    <MovementsPage frame={frameFor(c, name)} id={id} name={kind.name} stock={pieces} rows={rows} form={form} say={say} />,
    status,
  );
}

async function show(c: Context<AppEnv>, { status, ...form }: Form, say?: string) {
  const settings = await shopSettings(c.var.db);
  const after = c.req.query("after");
  const found = await shelf(c.var.db, ON_A_PAGE + 1, after);
  const rows = found.slice(0, ON_A_PAGE).map(({ stock: pieces, ...kind }) => ({ ...kind, stock: pieces ?? 0 }));
  const here = (last: string | undefined) => `/parts/stock${last === undefined ? "" : `?after=${encodeURIComponent(last)}`}`;
  return pageAnswer(
    c,
    <StockPage
      frame={frameFor(c, settings.name)}
      rows={rows}
      first={after === undefined}
      here={here(after)}
      form={form}
      say={say}
      {...(found.length > ON_A_PAGE && { next: here(rows.at(-1)!.id) })}
    />,
    status,
  );
}
