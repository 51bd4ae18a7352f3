/** zlib streams (RFC 1950) by the platform's own code. */
const through = (bytes: Uint8Array, stream: CompressionStream | DecompressionStream): ReadableStream<Uint8Array> =>
  new Blob([bytes as Uint8Array<ArrayBuffer>]).stream().pipeThrough(stream as ReadableWritablePair<Uint8Array, Uint8Array>);

/** Undefined unless exactly `length` bytes come out; stops as soon as there are more. */
export async function inflate(bytes: Uint8Array, length: number): Promise<Uint8Array | undefined> {
  const out = new Uint8Array(length);
  let at = 0;
  try {
    for await (const part of through(bytes, new DecompressionStream("deflate")) as unknown as AsyncIterable<Uint8Array>) {
      if (at + part.length > length) return undefined;
      out.set(part, at);
      at += part.length;
    }
  } catch {
    return undefined;
  }
  return at === length ? out : undefined;
}

export const deflate = async (bytes: Uint8Array): Promise<Uint8Array> =>
  new Uint8Array(await new Response(through(bytes, new CompressionStream("deflate"))).arrayBuffer());
