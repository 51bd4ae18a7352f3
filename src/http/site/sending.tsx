/** The shop's send hook: set, tried out, switched off. */
import { type Context, Hono } from "hono";
import { SendingPage } from "../../pages/shop/sending.js";
import { type SendHook, sendAttempts, sendHook } from "../../records/sendHook.js";
import { shopSettings } from "../../records/settings.js";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";
import { addressFault, send } from "../sending/send.js";
import { newSecret } from "../sending/signature.js";
import { frameFor, pageAnswer } from "./frame.js";
import { NOT_A_FORM, sentForm } from "./sentForm.js";

export const sending = new Hono<AppEnv>();

const SHOWN = 20;

sending.get("/settings/sending", (c) => show(c, { say: c.req.query("saved") === undefined ? undefined : "Saved." }));

sending.post("/settings/sending", async (c) => {
  const sent = await sentForm(c);
  if (!sent) return refuse(c, "media type unsupported", NOT_A_FORM);
  const { fields } = sent;
  const url = fields.get("url")?.trim() ?? "";
  const fault = url === "" ? undefined : addressFault(url);
  if (fault) return show(c, { fields, errors: new Map([["url", fault]]) });
  const kept = await sendHook.find(c.var.db);
  const renewed = !kept || fields.get("renew") === "yes";
  const hook: SendHook = { secret: renewed ? newSecret() : kept.secret, ...(url && { url }) };
  const put = await sendHook.put(c.var.db, Number(fields.get("version")) || 0, hook, c.var.clock().toISOString());
  if (put === "moved") {
    const now = await sendHook.find(c.var.db);
    const theirs = `Someone else changed it meanwhile, to ${now?.url ?? "nothing"}. Save again to keep what you typed.`;
    return show(c, { fields: new Map([...fields, ["version", String(now?.version ?? 0)]]), errors: new Map([["url", theirs]]) });
  }
  if (renewed && url) return show(c, { say: "Saved.", secret: hook.secret });
  return c.redirect("/settings/sending?saved", 303);
});

sending.post("/settings/sending/test", async (c) => {
  const { name } = await shopSettings(c.var.db);
  const text = `A test of the send hook of ${name}. Nothing is to be done.`;
  const sent = await send(c, { type: "test", to: "", subject: `Test of ${name}`, text });
  if (sent.is === "off") return c.redirect("/settings/sending", 303);
  return sent.is === "sent"
    ? show(c, { say: "Your program took the test." })
    : show(c, { errors: new Map([["url", `Your program did not take the test: ${sent.why}.`]]) });
});

interface Shown {
  readonly fields?: ReadonlyMap<string, string>;
  readonly errors?: ReadonlyMap<string, string>;
  readonly say?: string | undefined;
  readonly secret?: string;
}

async function show(c: Context<AppEnv>, { fields, errors = new Map(), say, secret }: Shown) {
  const { db } = c.var;
  const [settings, kept, attempts] = await Promise.all([shopSettings(db), sendHook.find(db), sendAttempts.last(db, SHOWN)]);
  const stored = new Map([
    ["url", kept?.url ?? ""],
    ["version", String(kept?.version ?? 0)],
  ]);
  c.header("cache-control", "no-store");
  return pageAnswer(
    c,
    <SendingPage
      frame={frameFor(c, settings.name)}
      fields={fields ?? stored}
      errors={errors}
      say={say}
      on={kept?.url !== undefined}
      locale={settings.locale}
      timeZone={settings.timeZone}
      attempts={attempts.map(({ at, jobId, status, failure }) => ({
        at,
        ...(jobId && { job: jobId }),
        outcome: failure ? `not taken: ${failure}` : `taken (${status})`,
      }))}
      {...(secret && { secret })}
    />,
    errors.size > 0 ? 422 : 200,
  );
}
