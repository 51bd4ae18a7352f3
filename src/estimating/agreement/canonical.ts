/** One JSON text per value: keys sorted, undefined left out. What a content hash is taken over. */
export function canonical(value: unknown): string {
  return JSON.stringify(sorted(value));
}

export const same = (a: unknown, b: unknown): boolean => canonical(a ?? null) === canonical(b ?? null);

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map((entry) => sorted(entry ?? null));
  if (value === null || typeof value !== "object") return value;
  const entries = Object.entries(value).filter(([, entry]) => entry !== undefined);
  entries.sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
  return Object.fromEntries(entries.map(([key, entry]) => [key, sorted(entry)]));
}
