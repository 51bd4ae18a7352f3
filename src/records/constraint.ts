/** Whether a write was refused by a unique key. The code stands in `error.code` or, through drizzle, in `error.cause.code`. */
export function isTaken(error: unknown): boolean {
  for (let at: unknown = error; at instanceof Error; at = at.cause) {
    const code = "code" in at ? String(at.code) : "";
    const text = `${code} ${at.message}`;
    if (/^SQLITE_CONSTRAINT/.test(code) && /UNIQUE|PRIMARYKEY/.test(text)) return true;
  }
  return false;
}
