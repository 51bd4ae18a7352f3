/** What is wrong with the place where a database or a file is kept, where that is no fault of the program. */

const CODES = {
  ENOSPC: "the disk is full",
  SQLITE_FULL: "the disk is full",
  EDQUOT: "the disk is full",
  EROFS: "it cannot be written to; look at who may write there",
  EACCES: "it cannot be written to; look at who may write there",
  EPERM: "it cannot be written to; look at who may write there",
  EIO: "the disk fails to read or write, or is full",
  SQLITE_IOERR: "the disk fails to read or write, or is full",
  SQLITE_READONLY: "it cannot be written to; look at who may write there",
  SQLITE_CANTOPEN: "it cannot be opened; look at who may read and write there",
  SQLITE_NOTADB: "it is no database, or its beginning was overwritten; put the last backup in its place (npm run restore)",
  SQLITE_CORRUPT: "it is damaged, such as cut short; put the last backup in its place (npm run restore)",
} as const satisfies Readonly<Record<string, string>>;

/** 'data/ohmwright.db: the disk is full.' Undefined for any other error. Drizzle and the driver wrap what the system said. */
export function fileTrouble(error: unknown, place: string): string | undefined {
  const said = troubleOf(error);
  return said && `${place}: ${said}.`;
}

export function troubleOf(error: unknown): string | undefined {
  for (let at = error; at instanceof Error; at = at.cause) {
    const code = "code" in at ? String(at.code) : "";
    const known = Object.entries(CODES).find(([name]) => code === name || code.startsWith(`${name}_`));
    if (known) return known[1];
    // With no code of its own.
    if (/unsupported file format/.test(at.message)) return CODES.SQLITE_NOTADB;
  }
  return undefined;
}
