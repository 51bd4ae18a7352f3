/** The shelf, page by page, and counting it anew. */
import { type Context, Hono } from "hono";
import { uuidv7 } from "uuidv7";
import { shopRateBook } from "../../acts/checked.js";
import { today } from "../../acts/today.js";
import { idOf } from "../../pages/form/fields.js";
import { count, line, reading } from "../../pages/form/reading.js";
import { countField, MovementsPage, StockPage } from "../../pages/parts/stockPage.js";
import { errorsIn, plainContext } from "../../pages/revise/smallForm.js";
import { jobNumbers } from "../../records/openNeeds.js";
import { partKinds } from "../../records/partKinds.js";
import { type Settings, shopSettings } from "../../records/settings.js";
import { countStock, type Movement, movementsOf, shelf, stockOf } from "../../records/stock.js";
import { counted } from "../../wording/list.js";
import { moment } from "../../wording/time.js";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";
import { frameFor, pageAnswer } from "./frame.js";
import { shopHand } from "./hand.js";
import { NOT_A_FORM, sentForm } from "./sentForm.js";
import { tokenOf } from "./token.js";

export const stock = new Hono<AppEnv>();

const ON_A_PAGE = 100;
const MOST = 1_000_000;

stock.get("/parts/stock", async (c) => {
  const fields = new Map([
    ["token", uuidv7()],
    ["by", await shopHand(c)],
  ]);
  const done = Number(c.req.query("counted"));
  return show(c, await shopSettings(c.var.db), fields, {
    say: Number.isSafeInteger(done) && done > 0 ? `${counted(done, "count")} recorded.` : undefined,
  });
});

stock.post("/parts/stock", async (c) => {
  const sent = await sentForm(c);
  if (!sent) return refuse(c, "media type unsupported", NOT_A_FORM);
  const { fields } = sent;
  const settings = await shopSettings(c.var.db);
  const at = reading(plainContext(today(c.var.clock(), settings.timeZone), settings, await shopRateBook(c.var.db)));
  const kinds = [...fields.keys()]
    .filter((name) => name.startsWith("counted."))
    .map((name) => idOf(name.slice("counted.".length)));
  const counts = kinds.flatMap((kind) => {
    const field = countField(kind);
    const pieces = count(at, field, fields.get(field));
    return pieces === undefined ? [] : [{ kind, field, pieces }];
  });
  const [reason, by] = [line(at, "reason", fields.get("reason")), line(at, "by", fields.get("by"), 200)];
  const errors = errorsIn(at);
  for (const { field, pieces } of counts)
    if (!Number.isInteger(pieces) || pieces < 0 || pieces > MOST)
      errors.set(field, "Counted now: give a whole number of 0 or more.");
  if (counts.length === 0 && errors.size === 0) errors.set("", "Nothing was counted: type a number beside a part first.");
  if (!reason && !errors.has("reason")) errors.set("reason", "Why: a corrected count needs a reason.");
  if (!by && !errors.has("by")) errors.set("by", "Who counted: type the name.");
  if (errors.size > 0 || !reason || !by) return show(c, settings, fields, { errors });

  const token = tokenOf(fields);
  for (const { kind, pieces } of counts) {
    const look = { id: `${token}-${kind}`, kind, counted: pieces, reason, by, at: c.var.clock().toISOString() };
    const outcome = await countStock(c.var.db, look);
    if (outcome.is === "missing") errors.set("", `There is no part kind '${kind}' any more.`);
  }
  if (errors.size > 0) return show(c, settings, fields, { errors });
  const after = c.req.query("after");
  return c.redirect(`/parts/stock?counted=${counts.length}${after ? `&after=${encodeURIComponent(after)}` : ""}`, 303);
});

const WHAT: Readonly<Record<Movement["why"], string>> = {
  "goods in": "Came in",
  "used on job": "Used on",
  "put back": "Withdrawn from",
  counted: "Counted",
};

stock.get("/parts/stock/:kind", async (c) => {
  const id = c.req.param("kind");
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
  return pageAnswer(c, <MovementsPage frame={frameFor(c, name)} name={kind.name} stock={pieces} rows={rows} />);
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
      fields={fields}
      errors={errors}
      say={say}
      {...(found.length > ON_A_PAGE && { next: here(rows.at(-1)!.id) })}
    />,
    errors.size > 0 ? 422 : 200,
  );
}
