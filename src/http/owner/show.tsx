/** A view of the owner's as an answer. */
import type { Context } from "hono";
import type { OwnerView } from "../../pages/owner/view.js";
import type { AppEnv } from "../bindings.js";

export const showView = (c: Context<AppEnv>, view: OwnerView, status: 200 | 403 | 409 | 410 | 422 | 429 = 200): Response =>
  c.json(view, status);
