/** SHA-256, in hex, of a JSON value with its keys in order: the same content has the same hash wherever it was written. */
export async function contentHash(value: unknown): Promise<string> {
  const digest = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(inOrder(value)));
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

function inOrder(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(inOrder).join(",")}]`;
  if (value === null || typeof value !== "object") return JSON.stringify(value);
  const pairs = Object.entries(value).filter(([, inner]) => inner !== undefined);
  pairs.sort(([a], [b]) => (a < b ? -1 : 1));
  return `{${pairs.map(([key, inner]) => `${JSON.stringify(key)}:${inOrder(inner)}`).join(",")}}`;
}
