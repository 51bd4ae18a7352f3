import { scrypt as derive } from "node:crypto";

/** Secrets made by the platform's own source of chance. */

/** Base64url, six bits a character. */
export function randomText(bytes: number): string {
  const made = crypto.getRandomValues(new Uint8Array(bytes));
  return btoa(String.fromCharCode(...made))
    .replaceAll("+", "-")
    .replaceAll("/", "_")
    .replaceAll("=", "");
}

/** Crockford's base 32 (crockford.com/base32.html, from memory): no I, L, O or U, so nothing is mistaken when it is typed. */
const CHARACTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

/** 50 bits, as XXXXX-XXXXX. */
export function newCode(): string {
  const text = [...crypto.getRandomValues(new Uint8Array(10))].map((byte) => CHARACTERS[byte % 32]).join("");
  return `${text.slice(0, 5)}-${text.slice(5)}`;
}

/** A code as it was meant: case, spaces and dashes do not count, O is 0, I and L are 1. */
export const plainCode = (typed: string): string =>
  typed
    .toUpperCase()
    .replaceAll(/[^0-9A-Z]/g, "")
    .replaceAll("O", "0")
    .replaceAll(/[IL]/g, "1");

/** scrypt (RFC 7914) of the platform: Node's own, and workerd's under nodejs_compat. */
export interface Cost {
  /** Memory is 128 · n · r bytes; n is a power of 2. */
  readonly n: number;
  readonly r: number;
  readonly p: number;
}

export function scrypt(secret: string, salt: Uint8Array, length: number, { n, r, p }: Cost): Promise<Uint8Array> {
  const options = { N: n, r, p, maxmem: 2 * 128 * (n + p) * r };
  return new Promise((resolve, reject) => {
    derive(secret, salt, length, options, (error, made) => (error ? reject(error) : resolve(new Uint8Array(made))));
  });
}
