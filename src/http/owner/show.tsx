/** A view of the owner's as an answer: a page for browsers, the same data for programs. */
import type { Context } from "hono";
import { OwnerPage } from "../../pages/owner/ownerPage.js";
import type { OwnerView } from "../../pages/owner/view.js";
import type { AppEnv } from "../bindings.js";
import { ownerFrameFor } from "../frame/frame.js";
import { wantsPage } from "../problems/refuse.js";

export const showView = (c: Context<AppEnv>, view: OwnerView, status: 200 | 403 | 409 | 410 | 422 | 429 = 200): Response => {
  if (!wantsPage(c)) return c.json(view, status);
  const page = <OwnerPage frame={ownerFrameFor(c)} view={view} />;
  return c.html(`<!doctype html>${page.toString()}`, status) as Response;
};
