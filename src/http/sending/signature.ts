/** Signs a call as Standard Webhooks 1.0 says: HMAC-SHA256 over 'id.timestamp.body'. */
const PREFIX = "whsec_";

/** `secret`: 'whsec_' and base64; `seconds`: since 1970. */
export async function signature(secret: string, id: string, seconds: number, body: string): Promise<string> {
  const bytes = Uint8Array.from(atob(secret.slice(PREFIX.length)), (letter) => letter.charCodeAt(0));
  const key = await crypto.subtle.importKey("raw", bytes, { name: "HMAC", hash: "SHA-256" }, false, ["sign"]);
  const made = await crypto.subtle.sign("HMAC", key, new TextEncoder().encode(`${id}.${seconds}.${body}`));
  return `v1,${btoa(String.fromCharCode(...new Uint8Array(made)))}`;
}
