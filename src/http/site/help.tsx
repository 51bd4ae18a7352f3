/** The guides, to everyone who comes: they hold nothing of the shop, and its name stands only where one may see it. */
import { type Context, Hono } from "hono";
import { guideCalled } from "../../pages/help/guides.js";
import { type HelpFrame, HelpIndex, HelpPage } from "../../pages/help/helpPage.js";
import { shopSettings } from "../../records/settings.js";
import { staff } from "../../records/staff.js";
import type { AppEnv } from "../bindings.js";
import { built, frameFor, pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";

export const help = new Hono<AppEnv>();

help.get("/help", async (c) => pageAnswer(c, <HelpIndex frame={await helpFrame(c)} />));

help.get("/help/:slug", async (c) => {
  const guide = guideCalled(c.req.param("slug"));
  return guide ? pageAnswer(c, <HelpPage frame={await helpFrame(c)} guide={guide} />) : refuse(c, "not found");
});

async function helpFrame(c: Context<AppEnv>): Promise<HelpFrame> {
  const inside = c.var.staff !== undefined || (!c.var.reachable && !(await staff.anyone(c.var.db)));
  if (inside) return { shop: frameFor(c, (await shopSettings(c.var.db)).name) };
  return { bare: { style: built(c, "style"), icon: built(c, "icon") } };
}
