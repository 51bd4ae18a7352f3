/** People of the shop, their tokens and the list of sign-ins, as programs get them. */
import { z } from "zod";
import { SCOPES } from "../../records/apiTokens.js";
import { WAYS_IN } from "../../records/sessions.js";
import { SIGN_IN_WHATS } from "../../records/signInEvents.js";
import { ROLES } from "../../records/staff.js";
import { maybe } from "./primitives.js";
import { keptKeys } from "./resources.js";

const instant = z.string().meta({ format: "date-time" });

export const staffMember = z
  .strictObject({
    ...keptKeys,
    name: z.string(),
    role: z.enum(ROLES),
    joinedAt: maybe(instant).meta({ description: "Since when this person has had a way in; absent: none yet" }),
    leftAt: maybe(instant).meta({ description: "Since when the account has been closed" }),
    invitedUntil: maybe(instant).meta({ description: "Until when an invitation is open" }),
  })
  .meta({ id: "StaffMember" });

export const invitation = z
  .strictObject({
    address: z.string().meta({
      description:
        "Where the person makes a way in, once; from the top of the shop's own address. Told this once: a repeat under the same Idempotency-Key leaves it out",
    }),
    expiresAt: instant,
  })
  .partial({ address: true })
  .meta({ id: "Invitation" });

export const invitedMember = staffMember.extend({ invitation }).meta({ id: "InvitedStaffMember" });

export const apiToken = z
  .strictObject({
    id: z.string(),
    staffId: z.string(),
    by: z.string().meta({ description: "Who made it, and in whose name it acts" }),
    name: z.string(),
    scopes: z.array(z.enum(SCOPES)),
    madeAt: instant,
    usedAt: maybe(instant).meta({ description: "To the hour" }),
    revokedAt: maybe(instant),
  })
  .meta({ id: "ApiToken" });

export const madeToken = apiToken
  .extend({
    token: maybe(
      z
        .string()
        .meta({ description: "Told this once: a repeat under the same Idempotency-Key leaves it out; only its SHA-256 is kept" }),
    ),
  })
  .meta({ id: "MadeApiToken" });

export const signInEvent = z
  .strictObject({
    id: z.string(),
    at: instant,
    what: z.enum(SIGN_IN_WHATS),
    name: maybe(z.string()).meta({ description: "Whose account; absent: nobody's" }),
    by: maybe(z.string()).meta({ description: "Who did it, where that is another" }),
    how: maybe(z.enum(WAYS_IN)),
    caller: maybe(z.string()).meta({ description: "The same for the same network address, which it does not tell" }),
  })
  .meta({ id: "SignInEvent" });
