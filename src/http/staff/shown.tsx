/** The sign-in page as it stands: by account once there is one, by the shop's secret before. */
import type { Context } from "hono";
import { SecretPage, SignInPage } from "../../pages/staff/signIn.js";
import type { HeldForm } from "../../pages/staff/view.js";
import { staff } from "../../records/staff.js";
import type { AppEnv } from "../bindings.js";
import { bareAnswer, lookOf, passkeyPlace } from "./look.js";

export interface Shown {
  readonly to: string;
  readonly held?: HeldForm | undefined;
  readonly status?: 200 | 401 | 422 | 429;
  /** What was typed, never a secret. */
  readonly fields?: ReadonlyMap<string, string>;
  readonly errors?: Readonly<Record<string, string>>;
}

export async function showSignIn(c: Context<AppEnv>, { to, held, status = 200, fields = new Map(), errors = {} }: Shown) {
  const shared = { look: lookOf(c), to, held, fields, errors: new Map(Object.entries(errors)) };
  const page = (await staff.anyone(c.var.db)) ? (
    <SignInPage {...shared} place={passkeyPlace(c)} secretHelps={c.var.reachable} />
  ) : (
    <SecretPage {...shared} />
  );
  return bareAnswer(c, page, status);
}
