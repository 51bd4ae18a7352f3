/** The shop's settings and the picture at the top of its documents. */
import { type Context, Hono } from "hono";
import { carryOut } from "../../acts/carryOut.js";
import { changeLogo, changeSettings, onShop, PROFILES_WITH_TERMS } from "../../acts/settings.js";
import type { AskedForm } from "../../pages/frame/ask.js";
import { LogoPage, SettingsPage } from "../../pages/shop/settings.js";
import { logos } from "../../records/logos.js";
import { rateBooks } from "../../records/rateBooks.js";
import { shopSettings } from "../../records/settings.js";
import { currencyChoices } from "../../wording/currencyName.js";
import { LANGUAGES, languageName } from "../../wording/tongue.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { readLogo } from "../doors/logo.js";
import { changing, pageDoor, seenIn } from "../doors/page.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { formWithFiles } from "./form.js";

export const settings = new Hono<AppEnv>();

settings.get("/settings", async (c) => {
  const shop = await shopSettings(c.var.db);
  return show(c, changing(changeSettings, shop, shop), c.req.query("saved") === undefined ? undefined : "Saved.");
});

settings.post("/settings", async (c) =>
  pageDoor(c, changeSettings, {
    on: (typed) => onShop(seenIn(typed)),
    tongue: await shopSettings(c.var.db),
    done: () => "/settings?saved",
    show: (again) => show(c, again),
  }),
);

async function show(c: Context<AppEnv>, form: AskedForm & { readonly status?: 404 | 409 | 422 }, say?: string) {
  const [{ name, logo }, books] = await Promise.all([shopSettings(c.var.db), rateBooks.list(c.var.db, { limit: 100 })]);
  return pageAnswer(
    c,
    <SettingsPage
      frame={frameFor(c, name)}
      form={form}
      books={books.rows.map(({ book }) => book)}
      currencies={currencyChoices()}
      languages={LANGUAGES.map((language) => [language, languageName(language)] as const)}
      profiles={PROFILES_WITH_TERMS}
      logo={logo !== undefined}
      say={say}
    />,
    form.status,
  );
}

settings.get("/settings/logo", (c) => showLogo(c, c.req.query("saved") === undefined ? {} : { say: "Saved." }));

settings.post("/settings/logo", async (c) => {
  const sent = Object.fromEntries(await formWithFiles(c));
  const seen = [Number(sent.version) || 0];
  const picture = sent.intent === "take off" ? undefined : await pictureIn(sent.file);
  if (picture && "wrong" in picture) return showLogo(c, picture);
  const outcome = await carryOut(changeLogo, deskOf(c), {}, { seen, ...(picture && { picture }) });
  return outcome.ok
    ? c.redirect("/settings/logo?saved", 303)
    : showLogo(c, { wrong: "Someone else saved the settings meanwhile; look at them, then choose the file again." });
});

const pictureIn = async (file: unknown) =>
  file instanceof File && file.size > 0
    ? readLogo(new Uint8Array(await file.arrayBuffer()))
    : { wrong: "Logo: choose a file first." };

async function showLogo(c: Context<AppEnv>, { wrong, say }: { readonly wrong?: string; readonly say?: string }) {
  const kept = await shopSettings(c.var.db);
  const found = kept.logo && (await logos.find(c.var.db, kept.logo));
  return pageAnswer(
    c,
    <LogoPage
      frame={frameFor(c, kept.name)}
      version={kept.version}
      errors={new Map(wrong ? [["file", wrong]] : [])}
      {...(say && { say })}
      {...(kept.logo && found && { logo: { id: kept.logo, width: found.width, height: found.height } })}
    />,
    wrong ? 422 : 200,
  );
}
