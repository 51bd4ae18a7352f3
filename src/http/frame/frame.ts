/** The parts of every page that come from the shop and the build. */
import type { Context } from "hono";
import { routePath } from "hono/route";
import type { Frame } from "../../pages/frame/layout.js";
import { helpOf } from "../../pages/help/guides.js";
import type { OwnerFrame } from "../../pages/owner/ownerFrame.js";
import type { AppEnv } from "../bindings.js";
import { mayUse } from "../who.js";

export const built = (c: Context<AppEnv>, name: string): string =>
  Object.keys(c.var.assets).find((path) => path.startsWith(`/assets/${name}-`)) ?? "";

export const frameFor = (c: Context<AppEnv>, shop: string): Frame => ({
  shop,
  style: built(c, "style"),
  icon: built(c, "icon"),
  typing: built(c, "typing"),
  help: helpOf(routePath(c)),
  guarded: c.var.guarded,
  ...(c.var.staff && { staff: c.var.staff.name, technician: !mayUse(c.var, "POST", "/settings") }),
});

export const scriptFor = (c: Context<AppEnv>): string => built(c, "intake");
export const mapScriptFor = (c: Context<AppEnv>): string => built(c, "modelMap");
export const photoScriptFor = (c: Context<AppEnv>): string => built(c, "photos");
export const findScriptFor = (c: Context<AppEnv>): string => built(c, "find");
export const recordScriptFor = (c: Context<AppEnv>): string => built(c, "record");
export const rowsScriptFor = (c: Context<AppEnv>): string => built(c, "rows");
export const benchScriptFor = (c: Context<AppEnv>): string => built(c, "bench");
export const copyScriptFor = (c: Context<AppEnv>): string => built(c, "copy");

/** The owner's pages: another frame and a script of their own. */
export const ownerFrameFor = (c: Context<AppEnv>): OwnerFrame => ({
  style: built(c, "style"),
  icon: built(c, "icon"),
  script: built(c, "owner"),
});

/** A whole page as an answer. */
export const pageAnswer = (c: Context<AppEnv>, page: unknown, status: 200 | 404 | 409 | 422 = 200) =>
  c.html(`<!doctype html>${String(page)}`, status);
