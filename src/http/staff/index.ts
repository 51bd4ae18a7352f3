/** Everything about who gets in, mounted by the app. */
import { Hono } from "hono";
import type { AppEnv, Bindings } from "../bindings.js";
import { account } from "./account.js";
import { invitation } from "./invitation.js";
import { setUp } from "./setUp.js";
import { signIn } from "./signIn.js";
import { staffPages } from "./staff.js";
import { tokens } from "./tokens.js";

export function people(secretOf: (bindings: Bindings) => string | undefined) {
  const app = new Hono<AppEnv>();
  for (const part of [signIn(secretOf), setUp(secretOf), invitation, account, staffPages, tokens]) app.route("/", part);
  return app;
}
