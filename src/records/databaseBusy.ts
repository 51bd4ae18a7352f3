/** What a connection to the database can fail with, apart from what the database answers. */

/** Written or read it was not, for now: whoever asked hears 503, and may ask again. */
export class DatabaseBusy extends Error {
  override readonly name = "DatabaseBusy";

  /** `nothingDone` is false where a write was sent and no answer came back: it may stand. */
  constructor(
    readonly nothingDone: boolean,
    cause: unknown,
  ) {
    super(nothingDone ? "The database stayed busy." : "The database gave no answer.", { cause });
  }
}

/** No answer of the database came back whole. */
export class ConnectionLost extends Error {
  override readonly name = "ConnectionLost";

  /** `unheard`: whoever answered did not carry it out. `hopeless`: asking once more would only take as long again. */
  constructor(
    message: string,
    readonly was: { readonly unheard?: boolean; readonly hopeless?: boolean; readonly cause?: unknown } = {},
  ) {
    super(message, { cause: was.cause });
  }
}

/** Drizzle wraps what a statement fails with. */
export function busyIn(error: unknown): DatabaseBusy | undefined {
  for (let at = error; at instanceof Error; at = at.cause) if (at instanceof DatabaseBusy) return at;
  return undefined;
}

/** What the log says of a database that gave no answer. */
export function lostIn(error: unknown): string | undefined {
  for (let at = error; at instanceof Error; at = at.cause) if (at instanceof ConnectionLost) return at.message;
  return undefined;
}
