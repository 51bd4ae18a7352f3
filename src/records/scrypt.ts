/** scrypt (RFC 7914) of the platform: Node's own, and workerd's under nodejs_compat. */
import { scrypt as derive } from "node:crypto";

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
