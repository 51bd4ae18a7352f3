/** Tokens for programs. */
import { type Context, Hono } from "hono";
import { TokensPage } from "../../pages/staff/tokens.js";
import { apiTokens, SCOPES } from "../../records/apiTokens.js";
import { shopSettings } from "../../records/settings.js";
import { signInEvents } from "../../records/signInEvents.js";
import { moment } from "../../wording/time.js";
import type { AppEnv } from "../bindings.js";
import { copyScriptFor, frameFor, pageAnswer } from "../site/frame.js";
import { nameFault, sentFields } from "./form.js";

export const tokens = new Hono<AppEnv>();

tokens.get("/tokens", (c) =>
  show(c, { say: c.req.query("said") === undefined ? undefined : "The token opens nothing any more." }),
);

tokens.post("/tokens", async (c) => {
  const fields = await sentFields(c);
  const name = fields.text("name");
  const scopes = SCOPES.filter((scope) => fields.all("scope").includes(scope));
  const typed = new Map([["name", name], ...scopes.map((scope) => [`scope-${scope}`, "on"] as const)]);
  const wrong = nameFault(name);
  if (wrong || scopes.length === 0)
    return show(c, {
      fields: typed,
      errors: { ...(wrong && { name: wrong }), ...(scopes.length === 0 && { "scope-read": "Tick what the token may do." }) },
    });
  const { id: staffId } = c.var.staff!;
  const token = await apiTokens.add(c.var.db, { staffId, name, scopes }, now(c));
  await signInEvents.adding(c.var.db, { what: "token made", staffId }, now(c));
  return show(c, { made: { name, token } });
});

tokens.post("/tokens/:id/revocation", async (c) => {
  const { db, staff } = c.var;
  await db.batch([
    apiTokens.revoke(db, c.req.param("id"), now(c)),
    signInEvents.adding(db, { what: "token revoked", staffId: staff!.id }, now(c)),
  ]);
  return c.redirect("/tokens?said", 303);
});

const now = (c: Context<AppEnv>) => c.var.clock().toISOString();

interface Showing {
  readonly say?: string | undefined;
  readonly fields?: ReadonlyMap<string, string>;
  readonly errors?: Readonly<Record<string, string>>;
  readonly made?: { readonly name: string; readonly token: string };
}

async function show(c: Context<AppEnv>, { say, fields = new Map([["scope-read", "on"]]), errors = {}, made }: Showing) {
  const [shop, all] = await Promise.all([shopSettings(c.var.db), apiTokens.all(c.var.db)]);
  const when = (at: string) => moment(at, shop.locale, shop.timeZone);
  const wrong = new Map(Object.entries(errors));
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
      fields={fields}
      errors={wrong}
      say={say}
    />,
    wrong.size > 0 ? 422 : 200,
  );
}
