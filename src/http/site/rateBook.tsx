import { Hono } from "hono";
import { RateBookPage } from "../../pages/shop/rateBook.js";
import { rateBooks } from "../../records/rateBooks.js";
import { shopSettings } from "../../records/settings.js";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";
import { frameFor, pageAnswer } from "./frame.js";

export const rateBook = new Hono<AppEnv>();

rateBook.get("/rate-book", async (c) => {
  const settings = await shopSettings(c.var.db);
  const newest = await rateBooks.find(c.var.db, settings.rateBookId);
  const wanted = Number(c.req.query("version") ?? newest?.version);
  const other = newest && Number.isSafeInteger(wanted) ? await rateBooks.findVersion(c.var.db, newest.id, wanted) : undefined;
  const found = wanted === newest?.version ? newest : other;
  if (!newest || !found) return refuse(c, "not found", { detail: "The rate book has no such version." });
  const versions = Array.from({ length: newest.version }, (_, index) => newest.version - index).slice(0, 50);
  return pageAnswer(
    c,
    <RateBookPage frame={frameFor(c, settings.name)} book={found.book} locale={settings.locale} versions={versions} />,
  );
});
