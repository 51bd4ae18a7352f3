/** An invitation, opened: its person makes a way in and is signed in. Looking at it does not use it up: mail programs look. */
import { type Context, Hono } from "hono";
import { uuidv7 } from "uuidv7";
import { z } from "zod";
import { acceptInvitation, INVITATION_GONE } from "../../acts/ownAccount.js";
import { readForm, type Typed, typedFrom } from "../../acts/readForm.js";
import { goOnWithout } from "../../acts/setUp.js";
import { personName } from "../../acts/staff.js";
import type { AskedForm } from "../../pages/frame/ask.js";
import { InvitationPage } from "../../pages/staff/setUp.js";
import { invitations } from "../../records/invitations.js";
import { shopSettings } from "../../records/settings.js";
import { staff } from "../../records/staff.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { fresh, pageDoor } from "../doors/page.js";
import { bareAnswer, lookOf, passkeyPlace } from "../frame/bare.js";
import { attempted, tooMany } from "../guard/attempts.js";
import { refuse } from "../problems/refuse.js";
import { entranceOf, showIn, tongueOf } from "./comeIn.js";
import { optionsToCreate } from "./passkey.js";

export const invitation = new Hono<AppEnv>();

const formOf = async (c: Context<AppEnv>): Promise<Typed> => typedFrom(new URLSearchParams(await c.req.text()));

invitation.get("/sign-in/invitation", (c) =>
  opened(c, c.req.query("secret") ?? "", (found) => show(c, found, fresh(acceptInvitation))),
);

invitation.post("/sign-in/invitation", async (c) =>
  opened(c, (await formOf(c)).get("invitation") ?? "", async (found) =>
    pageDoor(c, acceptInvitation, {
      on: { ...(await entranceOf(c)), invitation: found.secret },
      tongue: await shopSettings(c.var.db),
      once: (made) => showIn(c, made, "/"),
      // Used by another meanwhile.
      show: ({ refusal, ...again }) => (refusal?.is === "link dead" ? gone(c) : show(c, found, again)),
    }),
  ),
);

const named = z.strictObject({ name: personName });

/** What a browser is to make a passkey of: for the invited, for who is signed in, or for who sets up the shop. */
invitation.post("/sign-in/new-passkey", async (c) => {
  const typed = await formOf(c);
  const invited = typed.get("invitation") ?? "";
  const found = invited === "" ? undefined : await invitations.find(c.var.db, invited, c.var.clock().toISOString());
  if (invited !== "" && !found) return gone(c);
  const known = found?.staff ?? c.var.staff;
  const wrong = known ? undefined : await founderFault(c, typed);
  if (wrong) return refuse(c, "input refused", { detail: wrong });
  const options = await optionsToCreate(c, known ?? { id: uuidv7(), name: typed.get("name")!.trim() });
  return options ? c.json(options, 200, { "cache-control": "no-store" }) : refuse(c, "passkey unusable");
});

/** A device keeps the passkey it made, so what is wrong with the form is told before. */
async function founderFault(c: Context<AppEnv>, typed: Typed): Promise<string | undefined> {
  const tongue = await tongueOf(c, typed);
  const read = readForm(named, typed, tongue);
  if (!read.ok) return read.errors.get("name");
  if (typed.get("shopName") === undefined) return undefined;
  const shop = readForm(goOnWithout.fields, typed, tongue);
  if (!shop.ok) return [...shop.errors.values()][0];
  const decided = await goOnWithout.decide(deskOf(c), shop.value, {});
  return "refused" in decided ? decided.refused.errors?.[0]?.detail : undefined;
}

type Found = NonNullable<Awaited<ReturnType<typeof invitations.find>>> & { readonly secret: string };

async function opened(c: Context<AppEnv>, secret: string, then: (found: Found) => Response | Promise<Response>) {
  const found = await invitations.find(c.var.db, secret, c.var.clock().toISOString());
  if (found) return then({ ...found, secret });
  const { wait } = (await staff.anyone(c.var.db)) ? await attempted(c) : { wait: 0 };
  if (wait > 0) return refuse(c, "too many attempts", { detail: tooMany(c, wait), headers: { "retry-after": String(wait) } });
  return gone(c);
}

const gone = (c: Context<AppEnv>) => refuse(c, "link dead", { detail: INVITATION_GONE });

const show = (
  c: Context<AppEnv>,
  { staff: { name, joinedAt }, secret }: Found,
  { status, ...form }: AskedForm & { readonly status?: 404 | 409 | 422 },
) =>
  bareAnswer(
    c,
    <InvitationPage
      {...form}
      look={lookOf(c)}
      place={passkeyPlace(c)}
      name={name}
      joined={joinedAt !== undefined}
      secret={secret}
    />,
    status ?? 200,
  );
