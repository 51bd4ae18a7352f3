/** Coming in: a link's secret, or a number with its code, is exchanged for a cookie. What is wrong is counted per caller. */
import { type Context, Hono } from "hono";
import { OWNER_PATHS } from "../../pages/owner/view.js";
import { ownerEntries } from "../../records/ownerEntries.js";
import { ownerLinks } from "../../records/ownerLinks.js";
import { shopSettings } from "../../records/settings.js";
import { ownersPageIn } from "../../wording/ownersPage.js";
import { languageOf } from "../../wording/tongue.js";
import type { AppEnv } from "../bindings.js";
import { attempted } from "../guard/attempts.js";
import { refuse, wantsPage } from "../problems/refuse.js";
import { giveEntry, takeEntry } from "./cookie.js";
import { fieldsOf } from "./fields.js";
import { showView } from "./show.js";
import { ownerShop, visitBy } from "./visit.js";

export const entry = new Hono<AppEnv>();

entry.get(OWNER_PATHS.home, (c) => showEntry(c, {}, 200));

entry.post(OWNER_PATHS.entry, async (c) => {
  const fields = await fieldsOf(c);
  const typed = { number: fields.get("number")?.trim() ?? "", code: fields.get("code") ?? "" };
  const now = c.var.clock();
  const texts = ownersPageIn(wantsPage(c) ? (await shopSettings(c.var.db)).language : undefined).entry;
  const fragment = fields.get("link")?.trim();
  if (!fragment && !(typed.number && typed.code.trim())) return refusedEntry(c, "entry refused", texts.bothWanted, 403, typed);
  // A link cannot be guessed: the right one opens whatever others try.
  const byLink = fragment ? await ownerLinks.byFragment(c.var.db, fragment) : undefined;
  const { wait, takeBack } = byLink ? { wait: 0, takeBack: undefined } : await attempted(c, "owner");
  if (wait > 0) {
    c.header("retry-after", String(wait));
    return refusedEntry(c, "too many attempts", texts.tooMany(Math.ceil(wait / 60)), 429);
  }
  const link = fragment ? byLink : await ownerLinks.byCode(c.var.db, typed.number, typed.code);
  if (!link) return refusedEntry(c, "entry refused", fragment ? texts.nothingHere : texts.noSuch, 403, typed);
  await takeBack?.();
  const visit = await visitBy(c, link);
  if (visit.is === "gone") {
    takeEntry(c);
    return wantsPage(c) ? showView(c, visit.view, 410) : refuse(c, "link dead");
  }
  const token = await ownerEntries.add(c.var.db, link, fragment ? "link" : "code", now.toISOString());
  giveEntry(c, token, Math.floor((Date.parse(link.expiresAt) - now.getTime()) / 1000));
  return c.redirect(OWNER_PATHS.estimate, 303);
});

function refusedEntry(
  c: Context<AppEnv>,
  name: "entry refused" | "too many attempts",
  wrong: string,
  status: 403 | 429,
  { number }: { readonly number?: string } = {},
) {
  return wantsPage(c) ? showEntry(c, { wrong, ...(number && { number }) }, status) : refuse(c, name, { detail: wrong });
}

async function showEntry(
  c: Context<AppEnv>,
  said: { readonly wrong?: string; readonly number?: string },
  status: 200 | 403 | 429,
) {
  const shop = await shopSettings(c.var.db);
  return showView(c, { is: "entry", language: languageOf(shop.language), shop: ownerShop(shop), ...said }, status);
}
