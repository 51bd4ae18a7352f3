/** Tokens for programs. */
import { type Context, Hono } from "hono";
import { makeToken, revokeToken } from "../../acts/tokens.js";
import { TokensPage, type TokensPageProps } from "../../pages/staff/tokens.js";
import { apiTokens } from "../../records/apiTokens.js";
import { shopSettings } from "../../records/settings.js";
import { moment } from "../../wording/time.js";
import type { AppEnv } from "../bindings.js";
import { type Again, fresh, pageDoor } from "../doors/page.js";
import { copyScriptFor, frameFor, pageAnswer } from "../frame/frame.js";

export const tokens = new Hono<AppEnv>();
const done = () => "/tokens?said";

tokens.get("/tokens", (c) =>
  show(c, { say: c.req.query("said") === undefined ? undefined : "The token opens nothing any more." }),
);

tokens.post("/tokens", async (c) =>
  pageDoor(c, makeToken, {
    on: {},
    tongue: await shopSettings(c.var.db),
    done,
    once: ({ name, token }) => show(c, { made: { name, token } }),
    show: (again) => show(c, { again }),
  }),
);

tokens.post("/tokens/:id/revocation", async (c) =>
  pageDoor(c, revokeToken, {
    on: { token: c.req.param("id") },
    tongue: await shopSettings(c.var.db),
    done,
    show: (again) => show(c, { again }),
  }),
);

interface Showing {
  readonly say?: string | undefined;
  readonly again?: Again;
  readonly made?: TokensPageProps["made"];
}

async function show(c: Context<AppEnv>, { say, again, made }: Showing) {
  const [shop, all] = await Promise.all([shopSettings(c.var.db), apiTokens.all(c.var.db)]);
  const when = (at: string) => moment(at, shop.locale, shop.timeZone);
  const form = again ?? fresh(makeToken);
  return pageAnswer(
    c,
    <TokensPage
      frame={frameFor(c, shop.name)}
      script={copyScriptFor(c)}
      tokens={all.map(({ id, name, by, scopes, madeAt, usedAt, revokedAt }) => ({
        id,
        name,
        by,
        scopes,
        made: when(madeAt),
        ...(usedAt && { used: when(usedAt) }),
        ...(revokedAt && { revoked: when(revokedAt) }),
      }))}
      made={made}
      ticked={again ? again.typed.all("scopes") : ["read"]}
      says={form.says}
      fields={form.fields}
      errors={form.errors}
      say={say}
    />,
    again?.status ?? 200,
  );
}
