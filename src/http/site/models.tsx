import { Hono } from "hono";
import { type Book, readBook } from "../../estimating/book.js";
import { earlierCounts } from "../../estimating/closeout/earlierCounts.js";
import type { RateBook } from "../../estimating/input.js";
import { ModelList } from "../../pages/models/modelList.js";
import { ModelPage } from "../../pages/models/modelPage.js";
import { earlierJobs } from "../../records/earlierJobs.js";
import { models as records } from "../../records/models.js";
import { every } from "../../records/noun.js";
import { shopSettings } from "../../records/settings.js";
import type { AppEnv } from "../bindings.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { openShop } from "./shop.js";

export const models = new Hono<AppEnv>();

models.get("/models", async (c) => {
  const settings = await shopSettings(c.var.db);
  const kept = await every((wanted) => records.list(c.var.db, wanted));
  const rows = kept
    .map(({ id, maker, model, map }) => ({ id, maker, model, assemblies: map.assemblies.length }))
    .sort((a, b) => `${a.maker} ${a.model}`.localeCompare(`${b.maker} ${b.model}`));
  return pageAnswer(c, <ModelList frame={frameFor(c, settings.name)} rows={rows} />);
});

models.get("/models/:id", async (c) => {
  const found = await records.find(c.var.db, c.req.param("id"));
  if (!found) return refuse(c, "not found", { detail: "There is no such model." });
  const { settings, context } = await openShop(c.var.db, c.var.clock());
  const { id, maker, model, map, hazards, notes } = found;
  const { jobs, seen } = await earlierJobs(c.var.db, maker, model);
  return pageAnswer(
    c,
    <ModelPage
      frame={frameFor(c, settings.name)}
      id={id}
      maker={maker}
      model={model}
      map={map}
      rateBook={context.rateBook}
      book={indexed(context.rateBook)}
      earlier={earlierCounts(seen, jobs)}
      jobs={jobs}
      say={c.req.query("saved") === undefined ? undefined : "Saved."}
      locale={settings.locale}
      {...(hazards && { hazards })}
      {...(notes && { notes })}
    />,
  );
});

const indexed = (rateBook: RateBook): Book =>
  readBook({ schema: 1, asOf: "", currency: rateBook.currency, unit: { maker: "", model: "" }, items: [], rateBook });
