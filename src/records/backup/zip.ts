/** Lines to a gzip stream and back. */

export function zipped(lines: AsyncGenerator<string>): ReadableStream<Uint8Array> {
  const encoder = new TextEncoder();
  const plain = new ReadableStream<Uint8Array>({
    pull: async (controller) => {
      const { done, value } = await lines.next();
      if (done) controller.close();
      else controller.enqueue(encoder.encode(value));
    },
    cancel: async () => {
      await lines.return(undefined);
    },
  });
  return plain.pipeThrough(new CompressionStream("gzip") as unknown as ReadableWritablePair<Uint8Array, Uint8Array>);
}

/** No line of ours is longer; a small file can hold a line without end. */
const LONGEST = 128 * 1024 * 1024;

/** Ours come to three to thirty times what was packed; a stream that is made to swell comes to a thousand. */
const SWELLS = { times: 100, beyond: 16 * 1024 * 1024 };

/** Throws where it is no gzip stream, ends too early, swells, or is no UTF-8. */
export async function* unzipped(stream: ReadableStream<Uint8Array>): AsyncGenerator<string> {
  let [packed, unpacked, over] = [0, 0, false];
  const source = stream.getReader();
  const counted = new ReadableStream<Uint8Array>({
    pull: async (controller) => {
      const { done, value } = await source.read();
      if (over) return;
      if (done) return controller.close();
      packed += value.length;
      controller.enqueue(value);
    },
  });
  const texts = counted
    .pipeThrough(new DecompressionStream("gzip") as unknown as ReadableWritablePair<Uint8Array, Uint8Array>)
    .pipeThrough(new TextDecoderStream("utf-8", { fatal: true }) as unknown as ReadableWritablePair<string, Uint8Array>);
  let parts: string[] = [];
  let length = 0;
  const reader = texts.getReader();
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) break;
      unpacked += value.length;
      if (unpacked > SWELLS.beyond + SWELLS.times * packed) throw new Error("The file unpacks to far more than a backup does.");
      const pieces = value.split("\n");
      for (const [at, piece] of pieces.entries()) {
        parts.push(piece);
        length += piece.length;
        if (length > LONGEST) throw new Error("A line is too long.");
        if (at === pieces.length - 1) continue;
        yield parts.join("");
        [parts, length] = [[], 0];
      }
    }
    if (length > 0) yield parts.join("");
  } finally {
    // The unpacking itself is left as it stands: cancelled with more to come, Node 20's throws where nobody can catch it, and the server ends.
    over = true;
    source.cancel().catch(() => undefined);
  }
}
