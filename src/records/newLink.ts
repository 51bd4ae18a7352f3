/** A link's secrets as they are made: told once, kept as SHA-256. */
import type { Instant } from "./database.js";
import type { KeptOnce } from "./keptOnce.js";
import { newCode, plainCode, randomText } from "./secrets.js";
import { sha256 } from "./sha256.js";

/** What is told once. */
export interface LinkSecret {
  /** What stands after the # of the address. */
  readonly fragment: string;
  /** XXXXX-XXXXX, of Crockford's 32 characters. */
  readonly code: string;
}

export interface LinkWanted {
  readonly by: string;
  readonly deliveredTo: string;
  readonly expiresAt: Instant;
}

export interface LinkRow extends KeptOnce, LinkWanted {
  readonly estimateId: string;
  readonly secretHash: string;
  readonly codeSalt: string;
  readonly codeHash: string;
}

/** A row to be written, and its secrets: 144 bits in the address, 50 in the code. */
export async function newLink(
  { estimateId, jobId }: { readonly estimateId: string; readonly jobId: string },
  { by, deliveredTo, expiresAt }: LinkWanted,
  at: Instant,
): Promise<{ readonly row: LinkRow; readonly secret: LinkSecret }> {
  const [id, secret, code, codeSalt] = [randomText(9), randomText(18), newCode(), randomText(12)];
  const hashes = { secretHash: await sha256(secret), codeSalt, codeHash: await codeHashOf(code, codeSalt) };
  return {
    row: { id, jobId, at, estimateId, by, deliveredTo, expiresAt, ...hashes },
    secret: { fragment: `${id}.${secret}`, code },
  };
}

export const codeHashOf = (code: string, salt: string): Promise<string> => sha256(`${salt}:${plainCode(code)}`);
