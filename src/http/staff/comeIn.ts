/** Who is at the door, as an act of coming in wants it, and the browser let in. What is asked of a browser or spent is asked once. */
import type { Context } from "hono";
import { type Typed, typedFrom } from "../../acts/readForm.js";
import { locale as localeTag } from "../../acts/shapes/estimateInput.js";
import type { Entrance, In } from "../../acts/wayIn.js";
import { recoveryCodes } from "../../records/recoveryCodes.js";
import { shopSettings } from "../../records/settings.js";
import type { AppEnv } from "../bindings.js";
import { showCodes } from "../frame/bare.js";
import { knowBrowser } from "../guard/attempts.js";
import { giveSession } from "../guard/cookies.js";
import { createdPasskey, provenPasskey } from "./passkey.js";

export async function entranceOf(c: Context<AppEnv>): Promise<Entrance> {
  const { db, session, passphraseCost } = c.var;
  const agent = c.req.header("user-agent");
  return {
    caller: await c.var.caller("sign-in"),
    ...(agent !== undefined && { agent }),
    ...(session && { before: session }),
    ...(passphraseCost && { cost: passphraseCost }),
    created: once((sent: string) => createdPasskey(c, sent)),
    proven: once((sent: string) => provenPasskey(c, sent)),
    spent: once((code: string) => recoveryCodes.spend(db, code, c.var.clock().toISOString())),
  };
}

function once<T>(ask: (sent: string) => Promise<T>): (sent: string) => Promise<T> {
  let asked: Promise<T> | undefined;
  return (sent) => {
    asked ??= ask(sent);
    return asked;
  };
}

/** Figures of the set-up are typed in the way of writing them that the same form chooses. */
export async function tongueOf(c: Context<AppEnv>, typed?: Typed) {
  const { locale, currency } = await shopSettings(c.var.db);
  const sent = typed ?? typedFrom(new URLSearchParams(await c.req.text()));
  const read = localeTag.safeParse(sent.get("locale")?.trim());
  return { locale: read.success ? read.data : locale, currency };
}

/** In from here on, by an account that has just been made or helped: its codes are told this once. */
export async function showIn(c: Context<AppEnv>, { token, name, codes }: In, next: string): Promise<Response> {
  await giveSession(c, token);
  await knowBrowser(c, name);
  return showCodes(c, { name, codes, next });
}
