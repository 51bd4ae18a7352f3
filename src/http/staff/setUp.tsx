/** The first visit; and, when no manager gets in any more, another account by the shop's secret. */
import { type Context, Hono } from "hono";
import type { Typed } from "../../acts/readForm.js";
import { addManager, asItStands, goOnWithout, isUntouched, setUp as setUpShop } from "../../acts/setUp.js";
import { writeForm } from "../../acts/writeForm.js";
import type { AskedForm } from "../../pages/frame/ask.js";
import { AgainPage, SetUpPage } from "../../pages/staff/setUp.js";
import { jobs } from "../../records/jobs.js";
import { shopSettings } from "../../records/settings.js";
import { signInEvents } from "../../records/signInEvents.js";
import { staff } from "../../records/staff.js";
import { currencyChoices } from "../../wording/currencyName.js";
import type { AppEnv, Bindings } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { fresh, pageDoor, sentForm } from "../doors/page.js";
import { bareAnswer, lookOf, passkeyPlace } from "../frame/bare.js";
import { attempted, tooMany } from "../guard/attempts.js";
import { keepHand } from "../guard/cookies.js";
import { isSame, isUsable } from "../guard/secret.js";
import { entranceOf, showIn, tongueOf } from "./comeIn.js";

export function setUp(secretOf: (bindings: Bindings) => string | undefined) {
  const app = new Hono<AppEnv>();

  app.get("/set-up", async (c) => {
    const desk = deskOf(c);
    const stands = await asItStands(desk);
    const known = writeForm(setUpShop.fields, stands, await shopSettings(desk.db));
    return show(c, { ...fresh(setUpShop, Object.fromEntries(known)), guess: await isUntouched(desk) });
  });

  app.post("/set-up", async (c) =>
    pageDoor(c, setUpShop, {
      on: await entranceOf(c),
      tongue: await tongueOf(c),
      once: async (made) => showIn(c, made, await nextOf(c)),
      show: ({ refusal, ...again }) => (refusal?.is === "id taken" ? c.redirect("/sign-in", 303) : show(c, again)),
    }),
  );

  app.post("/set-up/later", async (c) => {
    // From the first page of a shop that has its rates there is no form to it.
    if ((await sentForm(c))?.names.length === 0) {
      await signInEvents.adding(c.var.db, { what: "went on without accounts" }, c.var.clock().toISOString());
      return c.redirect("/", 303);
    }
    return pageDoor(c, goOnWithout, {
      on: {},
      tongue: await tongueOf(c),
      once: async (_, typed) => {
        keepHand(c, (typed.get("name") ?? "").trim());
        return c.redirect(await nextOf(c), 303);
      },
      show: (again) => show(c, { ...again, says: fresh(setUpShop).says }),
    });
  });

  app.get("/sign-in/secret", async (c) => {
    if (!c.var.reachable || !(await staff.anyone(c.var.db))) return c.redirect("/sign-in", 303);
    return showAgain(c, fresh(addManager));
  });

  app.post("/sign-in/secret", async (c) => {
    const secret = secretOf(c.env);
    if (!isUsable(secret) || !(await staff.anyone(c.var.db))) return c.redirect("/sign-in", 303);
    const { wait, takeBack } = await attempted(c);
    const [said, typed] = [fresh(addManager), await sentForm(c)];
    const refused = (text: string) => ({ ...said, fields: namesIn(typed), errors: new Map([["secret", text]]) });
    if (wait > 0) return showAgain(c, refused(tooMany(c, wait)), 429);
    return pageDoor(c, addManager, {
      on: { ...(await entranceOf(c)), right: (given) => isSame(given, secret) },
      tongue: await shopSettings(c.var.db),
      once: async (made) => {
        if ("refused" in made) return showAgain(c, refused(made.refused), 401);
        await takeBack();
        return showIn(c, made, "/");
      },
      show: async (again) => {
        await takeBack();
        return showAgain(c, again);
      },
    });
  });
  return app;
}

const namesIn = (typed: Typed | undefined) => new Map([["name", typed?.get("name") ?? ""]]);

/** An empty shop begins with its first estimate. */
const nextOf = async (c: Context<AppEnv>): Promise<string> =>
  (await jobs.list(c.var.db, { limit: 1 })).rows.length === 0 ? "/estimates/new" : "/";

interface Shown extends AskedForm {
  /** Nobody has said anything yet, so the browser may say what it knows. */
  readonly guess?: boolean;
  readonly status?: 404 | 409 | 422;
}

const show = (c: Context<AppEnv>, { guess = false, status, ...form }: Shown) =>
  bareAnswer(
    c,
    <SetUpPage
      {...form}
      look={lookOf(c)}
      guess={guess}
      place={passkeyPlace(c, "/set-up")}
      currencies={currencyChoices()}
      mayGoOn={!c.var.reachable}
    />,
    status ?? 200,
  );

const showAgain = (c: Context<AppEnv>, { status: told, ...form }: Shown, status?: 401 | 429) =>
  bareAnswer(c, <AgainPage {...form} look={lookOf(c)} place={passkeyPlace(c)} />, status ?? told ?? 200);
