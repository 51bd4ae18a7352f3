import { createReadStream } from "node:fs";
import { Readable } from "node:stream";
import type { Source } from "../../records/backup/read.js";

/** A backup on disk; opened anew each time it is read. */
export const fileSource =
  (path: string): Source =>
  () =>
    Readable.toWeb(createReadStream(path)) as unknown as ReadableStream<Uint8Array>;
