/**
 * The two ceremonies of Web Authentication (W3C, Level 3, 7.1 and 7.2). The challenge waits in a signed cookie and is
 * good for one answer. A passkey is all that is asked for, so the authenticator must have verified its user.
 */
import { Buffer } from "node:buffer";
import type { AuthenticationResponseJSON, RegistrationResponseJSON } from "@simplewebauthn/server";
import type { Context } from "hono";
import { deleteCookie, getSignedCookie, setSignedCookie } from "hono/cookie";
import type { CookieOptions } from "hono/utils/cookie";
import { CHALLENGE_SECONDS } from "../../records/entryTerms.js";
import { type Passkey, passkeys } from "../../records/passkeys.js";
import { spendChallenge } from "../../records/spentChallenges.js";
import type { AppEnv } from "../bindings.js";
import { cookieKind } from "../guard/cookies.js";

/** Loaded when it is first wanted: its certificates' code would slow every start. */
const webauthn = () => import("@simplewebauthn/server");

const NAME = "ohmwright-passkey";
const kind = (c: Context<AppEnv>) => cookieKind(c, "Strict");

interface Asked {
  readonly act: "get" | "create";
  readonly challenge: string;
  /** Whose passkey is to be made. */
  readonly staffId: string;
  readonly until: number;
}

/** Where the browser says it is, when that is us. Its name is the RP ID. */
function siteOf(c: Context<AppEnv>): { readonly origin: string; readonly name: string } | undefined {
  const origin = c.req.header("origin") ?? c.var.origin;
  if (!URL.canParse(origin)) return undefined;
  const { host, hostname, protocol } = new URL(origin);
  const ours = origin === c.var.origin || host === (c.req.header("host") ?? new URL(c.req.url).host);
  const secure = protocol === "https:" || hostname === "localhost";
  return ours && secure ? { origin, name: hostname } : undefined;
}

async function ask(c: Context<AppEnv>, act: Asked["act"], challenge: string, staffId: string): Promise<void> {
  const until = Math.floor(c.var.clock().getTime() / 1000) + CHALLENGE_SECONDS;
  const value = [act, challenge, staffId, until].join(".");
  await setSignedCookie(c, NAME, value, await c.var.signingKey(), { ...kind(c), maxAge: CHALLENGE_SECONDS } as CookieOptions);
}

/** What was asked of this browser, once. */
async function asked(c: Context<AppEnv>, act: Asked["act"]): Promise<Asked | undefined> {
  const value = await getSignedCookie(c, await c.var.signingKey(), NAME, kind(c).prefix as "host");
  deleteCookie(c, NAME, kind(c));
  if (typeof value !== "string") return undefined;
  const [kept, challenge = "", staffId = "", until = ""] = value.split(".");
  const now = c.var.clock();
  if (kept !== act || Number(until) * 1000 <= now.getTime()) return undefined;
  const fresh = await spendChallenge(c.var.db, challenge, new Date(Number(until) * 1000).toISOString(), now.toISOString());
  return fresh ? { act, challenge, staffId, until: Number(until) } : undefined;
}

/** What the browser is to make a passkey of; nothing where it could make none. */
export async function optionsToCreate(c: Context<AppEnv>, person: { readonly id: string; readonly name: string }) {
  const site = siteOf(c);
  if (!site) return undefined;
  const { generateRegistrationOptions } = await webauthn();
  const known = await passkeys.of(c.var.db, person.id);
  const options = await generateRegistrationOptions({
    rpName: "Ohmwright",
    rpID: site.name,
    userName: person.name,
    userDisplayName: person.name,
    userID: new TextEncoder().encode(person.id),
    attestationType: "none",
    excludeCredentials: known.map(({ id, transports }) => ({ id, transports: [...transports] as never })),
    authenticatorSelection: { residentKey: "required", userVerification: "required" },
    supportedAlgorithmIDs: [-7, -257],
    timeout: CHALLENGE_SECONDS * 1000,
  });
  await ask(c, "create", options.challenge, person.id);
  return options;
}

/** The passkey that was made and whose it is to be; nothing when it does not hold. */
export async function createdPasskey(c: Context<AppEnv>, sent: string): Promise<Omit<Passkey, "name"> | undefined> {
  const [site, was] = [siteOf(c), await asked(c, "create")];
  if (!site || !was) return undefined;
  const { verifyRegistrationResponse } = await webauthn();
  try {
    const response = JSON.parse(sent) as RegistrationResponseJSON;
    const { verified, registrationInfo } = await verifyRegistrationResponse({
      response,
      expectedChallenge: was.challenge,
      expectedOrigin: site.origin,
      expectedRPID: site.name,
      requireUserVerification: true,
      supportedAlgorithmIDs: [-7, -257],
    });
    if (!verified) return undefined;
    const { id, publicKey, counter } = registrationInfo.credential;
    const transports = (response.response.transports ?? []).filter((one) => /^[a-z-]{1,20}$/.test(one)).slice(0, 10);
    return {
      id,
      staffId: was.staffId,
      site: site.name,
      publicKey: Buffer.from(publicKey).toString("base64url"),
      counter,
      transports,
      madeAt: c.var.clock().toISOString(),
    };
  } catch {
    return undefined;
  }
}

export async function optionsToGet(c: Context<AppEnv>) {
  const site = siteOf(c);
  if (!site) return undefined;
  const { generateAuthenticationOptions } = await webauthn();
  const options = await generateAuthenticationOptions({
    rpID: site.name,
    userVerification: "required",
    timeout: CHALLENGE_SECONDS * 1000,
  });
  await ask(c, "get", options.challenge, "");
  return options;
}

/** The passkey someone proved to hold, and its counter now; nothing when the proof does not hold. */
export async function provenPasskey(
  c: Context<AppEnv>,
  sent: string,
): Promise<{ readonly passkey: Passkey; readonly counter: number } | undefined> {
  const [site, was] = [siteOf(c), await asked(c, "get")];
  if (!site || !was) return undefined;
  const { verifyAuthenticationResponse } = await webauthn();
  try {
    const response = JSON.parse(sent) as AuthenticationResponseJSON;
    const passkey = await passkeys.find(c.var.db, String(response.id));
    // 7.2, step 6: the user handle must be that of the credential's owner.
    if (!passkey || Buffer.from(response.response.userHandle ?? "", "base64url").toString() !== passkey.staffId) return undefined;
    const { verified, authenticationInfo } = await verifyAuthenticationResponse({
      response,
      expectedChallenge: was.challenge,
      expectedOrigin: site.origin,
      expectedRPID: site.name,
      requireUserVerification: true,
      credential: {
        id: passkey.id,
        publicKey: new Uint8Array(Buffer.from(passkey.publicKey, "base64url")),
        counter: passkey.counter,
      },
    });
    return verified ? { passkey, counter: authenticationInfo.newCounter } : undefined;
  } catch {
    return undefined;
  }
}
