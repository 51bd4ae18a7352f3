/** Whatever was thrown becomes an answer: hono's own refusals by their status, a busy database as such, everything else as our fault. */
import type { Context } from "hono";
import { HTTPException } from "hono/http-exception";
import { busyIn, lostIn } from "../../records/databaseBusy.js";
import { troubleOf } from "../../records/fileTrouble.js";
import { refuse } from "./refuse.js";

export function failure(error: Error, c: Context): Response {
  if (error instanceof HTTPException) {
    if (error.status === 413) return refuse(c, "body too large");
    if (error.status === 415) return refuse(c, "media type unsupported", { detail: error.message || mediaType(c) });
    if (error.status === 400)
      return refuse(c, "json malformed", {
        detail: "The body could not be read as JSON; check its quotes, commas and brackets.",
      });
  }
  // Whoever sent it broke off, and reads no answer.
  if (error.message === "aborted" && "code" in error && error.code === "ECONNRESET")
    return refuse(c, "json malformed", { detail: "The request broke off before its end." });
  const busy = busyIn(error);
  const lost = busy && lostIn(busy);
  const trouble = troubleOf(error);
  if (lost) console.error(JSON.stringify({ failure: c.var.requestId, database: lost }));
  if (trouble) console.error(JSON.stringify({ failure: c.var.requestId, place: trouble }));
  if (busy) return busy.nothingDone ? refuse(c, "database busy", AGAIN) : refuse(c, "outcome unknown", AGAIN);
  if (trouble) return refuse(c, "place unfit", { detail: `Nothing was changed. Where the shop is kept, ${trouble}.`, ...AGAIN });
  console.error(JSON.stringify({ failure: c.var.requestId, error: error.name, code: codeOf(error), at: frames(error) }));
  return refuse(c, "our fault", { detail: "Try again; if it stays, look for this instance in the server's log." });
}

const AGAIN = { headers: { "retry-after": "5" } };

const mediaType = (c: Context): string =>
  `The content type is '${c.req.header("content-type") ?? "missing"}'; send application/json.`;

const codeOf = (error: Error): string | undefined => {
  for (let at: unknown = error; at instanceof Error; at = at.cause) if ("code" in at) return String(at.code);
  return undefined;
};

/** Where, never what: a message may quote a customer's data. */
const frames = (error: Error): string[] =>
  (error.stack ?? "")
    .split("\n")
    .filter((row) => /^\s+at /.test(row))
    .slice(0, 5)
    .map((row) => row.trim());
