/** The shop's send hook: set, tried out, switched off. */
import { type Context, Hono } from "hono";
import { changeHook, NO_HOOK, testHook } from "../../acts/sendHook.js";
import type { AskedForm } from "../../pages/frame/ask.js";
import { SendingPage } from "../../pages/shop/sending.js";
import { sendAttempts, sendHook } from "../../records/sendHook.js";
import { shopSettings } from "../../records/settings.js";
import type { AppEnv } from "../bindings.js";
import { changing, pageDoor, seenIn } from "../doors/page.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { deliverTest } from "../sending/send.js";

export const sending = new Hono<AppEnv>();

const SHOWN = 20;

sending.get("/settings/sending", (c) => show(c, { say: c.req.query("saved") === undefined ? undefined : "Saved." }));

sending.post("/settings/sending", async (c) =>
  pageDoor(c, changeHook, {
    on: (typed) => ({ seen: seenIn(typed) }),
    tongue: await shopSettings(c.var.db),
    done: () => "/settings/sending?saved",
    once: ({ url, secret }) => (url && secret ? show(c, { say: "Saved.", secret }) : c.redirect("/settings/sending?saved", 303)),
    show: (form) => show(c, { form }),
  }),
);

sending.post("/settings/sending/test", async (c) =>
  pageDoor(c, testHook, {
    on: { deliver: deliverTest(c) },
    tongue: await shopSettings(c.var.db),
    done: () => "/settings/sending",
    once: (sent) => {
      if (sent.is === "off") return c.redirect("/settings/sending", 303);
      return "why" in sent
        ? show(c, { wrong: `Your program did not take the test: ${sent.why}.` })
        : show(c, { say: "Your program took the test." });
    },
    show: (form) => show(c, { form }),
  }),
);

interface Shown {
  readonly form?: AskedForm & { readonly status: 404 | 409 | 422 };
  readonly wrong?: string;
  readonly say?: string | undefined;
  readonly secret?: string;
}

async function show(c: Context<AppEnv>, { form, wrong, say, secret }: Shown) {
  const { db } = c.var;
  const [settings, kept, attempts] = await Promise.all([shopSettings(db), sendHook.find(db), sendAttempts.last(db, SHOWN)]);
  const stored = changing(changeHook, kept ?? NO_HOOK, settings);
  c.header("cache-control", "no-store");
  return pageAnswer(
    c,
    <SendingPage
      frame={frameFor(c, settings.name)}
      form={form ?? { ...stored, errors: new Map(wrong ? [["url", wrong]] : []) }}
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
    form?.status ?? (wrong ? 422 : 200),
  );
}
