/** The shop's one secret: compared without telling how much of it was right. */
const encoder = new TextEncoder();

export const SECRET_LENGTH = 16;

export const isUsable = (secret: string | undefined): secret is string => secret !== undefined && secret.length >= SECRET_LENGTH;

/** Both sides are hashed under a key of this very call, so neither length nor content can be timed. */
export async function isSame(given: string, secret: string): Promise<boolean> {
  const key = await crypto.subtle.generateKey({ name: "HMAC", hash: "SHA-256" }, false, ["sign", "verify"]);
  const signature = await crypto.subtle.sign("HMAC", key, encoder.encode(secret));
  return crypto.subtle.verify("HMAC", key, signature, encoder.encode(given));
}

/** A name for a caller that tells nothing about its address. Hex. */
export async function callerName(address: string, secret: string): Promise<string> {
  const key = await crypto.subtle.importKey("raw", encoder.encode(secret), { name: "HMAC", hash: "SHA-256" }, false, ["sign"]);
  const name = await crypto.subtle.sign("HMAC", key, encoder.encode(`caller:${address}`));
  return [...new Uint8Array(name).slice(0, 12)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}
