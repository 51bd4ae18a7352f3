/** A body too long for memory, kept in pieces where photos are until it was read: so it can be read twice. */
import type { PhotoStore } from "../photoStore.js";
import type { Source } from "./read.js";
import { asStream, chunksOf } from "./zip.js";

const PIECE = 1024 * 1024;
const TYPE = "application/octet-stream";
/** The same each time, so that what a power cut left is written over. */
const named = (piece: number): string => `restoring-${piece}`;

export interface Spooled {
  readonly source: Source;
  readonly gone: () => Promise<void>;
}

export async function spooled(body: ReadableStream<Uint8Array>, store: PhotoStore): Promise<Spooled> {
  let pieces = 0;
  const gone = async () => {
    for (let piece = 0; piece < pieces || (await store.get(named(piece))); piece += 1) await store.remove(named(piece));
  };
  try {
    let piece = new Uint8Array(PIECE);
    let filled = 0;
    const kept = async () => {
      await store.put(named(pieces), piece.subarray(0, filled), TYPE);
      pieces += 1;
      filled = 0;
    };
    for await (const chunk of chunksOf(body)) {
      for (let from = 0; from < chunk.length; ) {
        const part = chunk.subarray(from, from + PIECE - filled);
        piece.set(part, filled);
        filled += part.length;
        from += part.length;
        if (filled === PIECE) await kept();
      }
    }
    if (filled > 0) await kept();
    piece = new Uint8Array();
  } catch (error) {
    await gone();
    throw error;
  }
  async function* again(): AsyncGenerator<Uint8Array> {
    for (let piece = 0; piece < pieces; piece += 1) {
      const bytes = await store.get(named(piece));
      if (bytes) yield bytes;
    }
  }
  return { source: () => asStream(again()), gone };
}
