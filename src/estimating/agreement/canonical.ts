/** One JSON text per value: keys in order of their code units, what is undefined left out. Content hashes and the chain are taken over it. */
export function canonical(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map((entry) => canonical(entry ?? null)).join(",")}]`;
  if (value === null || typeof value !== "object") return JSON.stringify(value ?? null);
  const entries = Object.entries(value).filter(([, entry]) => entry !== undefined);
  entries.sort(([a], [b]) => (a < b ? -1 : 1));
  return `{${entries.map(([key, entry]) => `${JSON.stringify(key)}:${canonical(entry)}`).join(",")}}`;
}

export const same = (a: unknown, b: unknown): boolean => canonical(a) === canonical(b);
