/** Which address Node may serve: loopback, or any when a secret is wanted. */
import { isUsable, SECRET_LENGTH } from "./secret.js";

const LOOPBACK = new Set(["127.0.0.1", "::1", "localhost"]);

/** Why this address may not be served, or nothing. */
export function refuseAddress(host: string, secret: string | undefined): string | undefined {
  if (secret !== undefined && !isUsable(secret)) return `OHMWRIGHT_SECRET must have at least ${SECRET_LENGTH} characters.`;
  if (LOOPBACK.has(host) || secret !== undefined) return undefined;
  return `${host} can be reached from other machines. Set OHMWRIGHT_SECRET (at least ${SECRET_LENGTH} characters) first, or serve on 127.0.0.1.`;
}
