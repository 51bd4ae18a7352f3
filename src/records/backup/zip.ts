/** Lines to a gzip stream and back, in little memory however much there is. */

/**
 * What comes out of a stream for what is put in, one chunk after the other: a pipe of Node's own (20.20) holds 16,384 chunks of any size
 * between two streams, which is a whole shop.
 */
async function* through(
  chunks: AsyncIterator<Uint8Array>,
  { writable, readable }: ReadableWritablePair<Uint8Array, Uint8Array>,
): AsyncGenerator<Uint8Array> {
  const [writer, reader] = [writable.getWriter(), readable.getReader()];
  let over = false;
  const fed = async () => {
    const { done, value } = await chunks.next();
    if (over) return "all fed";
    await (done ? writer.close() : writer.write(value));
    return done ? "all fed" : "fed";
  };
  const heard = <T>(promise: Promise<T>): Promise<T> => {
    promise.catch(() => undefined);
    return promise;
  };
  let feeding: ReturnType<typeof fed> | undefined = heard(fed());
  let reading = heard(reader.read());
  try {
    for (;;) {
      const first = await (feeding ? Promise.race([reading, feeding]) : reading);
      if (first === "all fed") feeding = undefined;
      else if (first === "fed") feeding = heard(fed());
      else if (first.done) return;
      else {
        yield first.value;
        reading = heard(reader.read());
      }
    }
  } finally {
    // The stream itself is left as it stands: cancelled with more to come, Node 20's throws where nobody can catch it, and the server ends.
    over = true;
    chunks.return?.().catch(() => undefined);
  }
}

type Gzip = ReadableWritablePair<Uint8Array, Uint8Array>;

async function* encoded(lines: AsyncGenerator<string>): AsyncGenerator<Uint8Array> {
  const encoder = new TextEncoder();
  for await (const line of lines) yield encoder.encode(line);
}

export const zipped = (lines: AsyncGenerator<string>): ReadableStream<Uint8Array> =>
  asStream(through(encoded(lines), new CompressionStream("gzip") as unknown as Gzip));

/** Read no faster than it is taken. */
export const asStream = (chunks: AsyncIterator<Uint8Array>): ReadableStream<Uint8Array> =>
  new ReadableStream<Uint8Array>({
    pull: async (controller) => {
      const { done, value } = await chunks.next();
      if (done) controller.close();
      else controller.enqueue(value);
    },
    cancel: async () => {
      await chunks.return?.();
    },
  });

/** No line of ours is longer; a small file can hold a line without end. */
const LONGEST = 128 * 1024 * 1024;

/** Ours come to three to thirty times what was packed; a stream that is made to swell comes to a thousand. */
const SWELLS = { times: 100, beyond: 16 * 1024 * 1024 };

export async function* chunksOf(
  stream: ReadableStream<Uint8Array>,
  counted: (bytes: number) => void = () => undefined,
): AsyncGenerator<Uint8Array> {
  const reader = stream.getReader();
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return;
      counted(value.length);
      yield value;
    }
  } finally {
    reader.cancel().catch(() => undefined);
  }
}

/** Throws where it is no gzip stream, ends too early, swells, or is no UTF-8. */
export async function* unzipped(stream: ReadableStream<Uint8Array>): AsyncGenerator<string> {
  let [packed, unpacked] = [0, 0];
  const packedChunks = chunksOf(stream, (bytes) => {
    packed += bytes;
  });
  const decoder = new TextDecoder("utf-8", { fatal: true });
  let parts: string[] = [];
  let length = 0;
  for await (const bytes of through(packedChunks, new DecompressionStream("gzip") as unknown as Gzip)) {
    unpacked += bytes.length;
    if (unpacked > SWELLS.beyond + SWELLS.times * packed) throw new Error("The file unpacks to far more than a backup does.");
    const pieces = decoder.decode(bytes, { stream: true }).split("\n");
    for (const [at, piece] of pieces.entries()) {
      parts.push(piece);
      length += piece.length;
      if (length > LONGEST) throw new Error("A line is too long.");
      if (at === pieces.length - 1) continue;
      yield parts.join("");
      [parts, length] = [[], 0];
    }
  }
  decoder.decode();
  if (length > 0) yield parts.join("");
}
