/** Writes the database refused. The code stands in `error.code` or, through drizzle, in `error.cause.code`. */

/** By a key, a reference, or a trigger that holds an invariant. */
export const isRefused = (error: unknown): boolean => refusal(error) !== undefined;

/** By a unique key. */
export const isTaken = (error: unknown): boolean => /UNIQUE|PRIMARYKEY/.test(refusal(error) ?? "");

function refusal(error: unknown): string | undefined {
  for (let at: unknown = error; at instanceof Error; at = at.cause) {
    const code = "code" in at ? String(at.code) : "";
    if (/^SQLITE_CONSTRAINT/.test(code)) return `${code} ${at.message}`;
  }
  return undefined;
}
