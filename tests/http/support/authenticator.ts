/**
 * An authenticator in software: ES256, attestation "none", by W3C Web Authentication Level 3 (6.1 authenticator data, 6.5.4 attestation
 * objects) and RFC 9053 for the key. WebCrypto alone, so that it runs in workerd too. What it does wrong is asked for by name.
 */
const encoder = new TextEncoder();

export interface Wrongs {
  /** What the browser says it is at. */
  readonly origin?: string;
  /** Which name the authenticator hashed. */
  readonly name?: string;
  readonly userVerified?: boolean;
  readonly challenge?: string;
  readonly userHandle?: string;
  readonly counter?: number;
  readonly type?: string;
}

const join = (...parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> => {
  const made = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    made.set(part, at);
    at += part.length;
  }
  return made;
};
export const base64url = (bytes: Uint8Array): string =>
  btoa(String.fromCharCode(...bytes))
    .replaceAll("+", "-")
    .replaceAll("/", "_")
    .replaceAll("=", "");
const sha256 = async (bytes: Uint8Array<ArrayBuffer>) => new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
const number32 = (n: number) => new Uint8Array([n >>> 24, (n >>> 16) & 255, (n >>> 8) & 255, n & 255]);

/** CBOR (RFC 8949): a text shorter than 24 bytes, bytes shorter than 64 KiB. */
const text = (value: string) => join(new Uint8Array([0x60 + value.length]), encoder.encode(value));
const bytes = (value: Uint8Array) => join(new Uint8Array([0x59, value.length >> 8, value.length & 255]), value);

/** ECDSA's r and s as ASN.1, as authenticators send them (6.5.5). */
function der(raw: Uint8Array): Uint8Array {
  const whole = (part: Uint8Array) => {
    const first = part.findIndex((byte) => byte !== 0);
    const cut = part.slice(first);
    const body = cut[0]! > 127 ? join(new Uint8Array([0]), cut) : cut;
    return join(new Uint8Array([2, body.length]), body);
  };
  const body = join(whole(raw.slice(0, 32)), whole(raw.slice(32)));
  return join(new Uint8Array([0x30, body.length]), body);
}

export async function authenticator(origin: string) {
  const at = new URL(origin).hostname;
  const pair = await crypto.subtle.generateKey({ name: "ECDSA", namedCurve: "P-256" }, true, ["sign", "verify"]);
  const point = new Uint8Array(await crypto.subtle.exportKey("raw", (pair as CryptoKeyPair).publicKey));
  const id = crypto.getRandomValues(new Uint8Array(16));
  let handle = "";
  let counter = 0;

  const clientData = (type: string, challenge: string, wrongs: Wrongs) =>
    encoder.encode(
      JSON.stringify({ type: wrongs.type ?? type, challenge: wrongs.challenge ?? challenge, origin: wrongs.origin ?? origin }),
    );
  const data = async (flags: number, wrongs: Wrongs) => {
    counter = wrongs.counter ?? counter + 1;
    const verified = wrongs.userVerified === false ? 0 : 4;
    return join(await sha256(encoder.encode(wrongs.name ?? at)), new Uint8Array([flags | verified]), number32(counter));
  };

  return {
    id: base64url(id),

    /** navigator.credentials.create() */
    create: async (options: { readonly challenge: string; readonly user: { readonly id: string } }, wrongs: Wrongs = {}) => {
      handle = options.user.id;
      const key = join(
        new Uint8Array([0xa5, 1, 2, 3, 0x26, 0x20, 1, 0x21, 0x58, 32]),
        point.slice(1, 33),
        new Uint8Array([0x22, 0x58, 32]),
        point.slice(33),
      );
      const attested = join(new Uint8Array(16), new Uint8Array([0, id.length]), id, key);
      const authData = join(await data(0x41, wrongs), attested);
      const object = join(
        new Uint8Array([0xa3]),
        text("fmt"),
        text("none"),
        text("attStmt"),
        new Uint8Array([0xa0]),
        text("authData"),
        bytes(authData),
      );
      return JSON.stringify({
        id: base64url(id),
        rawId: base64url(id),
        type: "public-key",
        clientExtensionResults: {},
        response: {
          clientDataJSON: base64url(clientData("webauthn.create", options.challenge, wrongs)),
          attestationObject: base64url(object),
          transports: ["internal"],
        },
      });
    },

    /** navigator.credentials.get() */
    get: async (options: { readonly challenge: string }, wrongs: Wrongs = {}) => {
      const client = clientData("webauthn.get", options.challenge, wrongs);
      const authData = await data(0x01, wrongs);
      const signed = join(authData, await sha256(client as Uint8Array<ArrayBuffer>));
      const raw = await crypto.subtle.sign({ name: "ECDSA", hash: "SHA-256" }, (pair as CryptoKeyPair).privateKey, signed);
      return JSON.stringify({
        id: base64url(id),
        rawId: base64url(id),
        type: "public-key",
        clientExtensionResults: {},
        response: {
          clientDataJSON: base64url(client),
          authenticatorData: base64url(authData),
          signature: base64url(der(new Uint8Array(raw))),
          userHandle: wrongs.userHandle ?? handle,
        },
      });
    },
  };
}
