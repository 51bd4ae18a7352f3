/** An invitation, opened: its person makes a way in and is signed in. Looking at it does not use it up: mail programs look. */
import { type Context, Hono } from "hono";
import { uuidv7 } from "uuidv7";
import { InvitationPage } from "../../pages/staff/setUp.js";
import { isRefused } from "../../records/constraint.js";
import { PASSPHRASE_LENGTH } from "../../records/entryTerms.js";
import { invitations } from "../../records/invitations.js";
import { newRecoveryCodes, recoveryCodes } from "../../records/recoveryCodes.js";
import { sessions } from "../../records/sessions.js";
import { joining, staff } from "../../records/staff.js";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";
import { tooMany, waitBefore, wrongAttempt } from "./attempts.js";
import { bareAnswer, lookOf, passkeyPlace, showCodes } from "./bare.js";
import { comeIn, newWayIn, wayWrites } from "./comeIn.js";
import { nameFault, sentFields } from "./form.js";
import { optionsToCreate } from "./passkey.js";

export const invitation = new Hono<AppEnv>();

invitation.get("/sign-in/invitation", (c) => opened(c, c.req.query("secret") ?? "", (found) => show(c, found, {})));

invitation.post("/sign-in/invitation", async (c) => {
  const fields = await sentFields(c);
  return opened(c, fields.raw("invitation"), async (found) => {
    const { id, staff: person } = found;
    const at = c.var.clock().toISOString();
    const way = await newWayIn(c, fields, "Passkey");
    if (way.is === "none") return show(c, found, { passphrase: way.wrong });
    if (way.is === "passkey" && way.passkey.staffId !== person.id)
      return show(c, found, { passphrase: "The passkey could not be checked; make it again." });
    const { codes, rows } = await newRecoveryCodes(person.id, at);
    const writes = [
      invitations.using(c.var.db, id, at),
      joining(c.var.db, person.id, at),
      // Whoever asks for a new way in may have lost the browser of the old one.
      sessions.endOthers(c.var.db, person.id, undefined, at),
      ...wayWrites(c, person.id, way),
      ...recoveryCodes.replacing(c.var.db, person.id, rows),
    ];
    try {
      await comeIn(c, person.id, "invitation", writes);
    } catch (error) {
      // Used by another meanwhile.
      if (isRefused(error)) return gone(c);
      throw error;
    }
    return showCodes(c, { name: person.name, codes, next: "/" });
  });
});

/** What a browser is to make a passkey of: for the invited, for who is signed in, or for who sets up the shop. */
invitation.post("/sign-in/new-passkey", async (c) => {
  const fields = await sentFields(c);
  const invited = fields.raw("invitation");
  const at = c.var.clock().toISOString();
  const found = invited === "" ? undefined : await invitations.find(c.var.db, invited, at);
  if (invited !== "" && !found) return gone(c);
  const person = found?.staff ?? c.var.staff ?? { id: uuidv7(), name: fields.text("name") };
  const wrong = nameFault(person.name);
  if (wrong) return refuse(c, "input refused", { errors: [{ pointer: "/name", name: "text empty", detail: wrong }] });
  const options = await optionsToCreate(c, person);
  return options ? c.json(options, 200, { "cache-control": "no-store" }) : refuse(c, "passkey unusable");
});

type Found = NonNullable<Awaited<ReturnType<typeof invitations.find>>> & { readonly secret: string };

async function opened(c: Context<AppEnv>, secret: string, then: (found: Found) => Response | Promise<Response>) {
  const wait = await waitBefore(c);
  if (wait > 0) return refuse(c, "too many attempts", { detail: tooMany(c, wait), headers: { "retry-after": String(wait) } });
  const found = await invitations.find(c.var.db, secret, c.var.clock().toISOString());
  if (found) return then({ ...found, secret });
  if (await staff.anyone(c.var.db)) await wrongAttempt(c);
  return gone(c);
}

const gone = (c: Context<AppEnv>) =>
  refuse(c, "link dead", {
    detail: "This invitation was used, has expired, or was replaced by another. Ask a manager of the shop for a new one.",
  });

function show(c: Context<AppEnv>, { staff: person, secret }: Found, errors: Readonly<Record<string, string>>) {
  const wrong = Object.keys(errors).length > 0;
  return bareAnswer(
    c,
    <InvitationPage
      look={lookOf(c)}
      place={passkeyPlace(c)}
      name={person.name}
      joined={person.joinedAt !== undefined}
      secret={secret}
      shortest={PASSPHRASE_LENGTH}
      fields={new Map()}
      errors={new Map(Object.entries(errors))}
    />,
    wrong ? 422 : 200,
  );
}
