/** The pixels of a PNG as documents carry them: unpacked once, so that none but a whole picture of the size it says is kept, and laid on white where they are see-through. */
import { joined, type Picture, type PictureFault, tooManyPixels } from "./picture.js";
import { type Chunk, chunksOf, type PngHead, pngHead, pngOf, rowBytes, samplesOf } from "./png.js";

export async function pngOnPaper(file: Uint8Array): Promise<Picture | PictureFault> {
  const chunks = chunksOf(file);
  const first = chunks?.find(({ type }) => type === "IHDR");
  const head = first && pngHead(first.data);
  if (!chunks || !head) return { is: "damaged" };
  const fault = tooManyPixels(head.width, head.height);
  if (fault) return fault;
  if (head.interlaced) return { is: "interlaced" };
  const pixels = joined(chunks.filter(({ type }) => type === "IDAT").map(({ data }) => data));
  const rows = await inflate(pixels, head.height * (rowBytes(head) + 1));
  const kept = rows && (await withoutAlpha(head, chunks, pixels, rows));
  return kept ? { kind: "png", width: head.width, height: head.height, bytes: pngOf(kept) } : { is: "damaged" };
}

async function withoutAlpha(
  head: PngHead,
  chunks: readonly Chunk[],
  pixels: Uint8Array,
  rows: Uint8Array,
): Promise<Chunk[] | undefined> {
  const [ihdr, palette, alpha] = ["IHDR", "PLTE", "tRNS"].map((wanted) => chunks.find(({ type }) => type === wanted));
  if (head.colour === "palette") {
    if (!palette || palette.data.length % 3 !== 0) return undefined;
    const colours = alpha ? onWhitePalette(palette.data, alpha.data) : palette.data;
    return [ihdr!, { type: "PLTE", data: colours }, { type: "IDAT", data: pixels }];
  }
  if (head.colour === "grey" || head.colour === "rgb") return [ihdr!, ...(alpha ? [alpha] : []), { type: "IDAT", data: pixels }];
  const flat = onWhite(rows, head);
  if (!flat) return undefined;
  const plain = ihdr!.data.slice();
  plain[8] = 8;
  plain[9] = head.colour === "grey and alpha" ? 0 : 2;
  return [
    { type: "IHDR", data: plain },
    { type: "IDAT", data: await deflate(flat) },
  ];
}

const UP = 2;

const blend = (colour: number, alpha: number): number => Math.round((colour * alpha + 255 * (255 - alpha)) / 255);

function onWhitePalette(colours: Uint8Array, alphas: Uint8Array): Uint8Array {
  return colours.map((colour, at) => blend(colour, alphas[Math.floor(at / 3)] ?? 255));
}

/** Rows of eight-bit samples without alpha, each as its difference from the row above; undefined for a filter there is none of. */
function onWhite(rows: Uint8Array, head: PngHead): Uint8Array | undefined {
  const samples = samplesOf(head);
  const step = (samples * head.depth) / 8;
  const plain = unfilter(rows, rowBytes(head), step);
  if (!plain) return undefined;
  const each = head.depth / 8;
  const colours = samples - 1;
  const width = head.width * colours;
  const flat = new Uint8Array(head.height * width);
  for (let pixel = 0; pixel < head.width * head.height; pixel += 1) {
    const alpha = plain[pixel * step + colours * each]!;
    for (let sample = 0; sample < colours; sample += 1)
      flat[pixel * colours + sample] = blend(plain[pixel * step + sample * each]!, alpha);
  }
  const out = new Uint8Array(head.height * (width + 1));
  for (let row = 0; row < head.height; row += 1) {
    out[row * (width + 1)] = UP;
    for (let at = 0; at < width; at += 1)
      out[row * (width + 1) + 1 + at] = flat[row * width + at]! - (row === 0 ? 0 : flat[(row - 1) * width + at]!);
  }
  return out;
}

/** Undoes the filters of PNG rows (ISO/IEC 15948, clause 9). `step`: bytes a pixel. Undefined for a filter there is none of. */
export function unfilter(rows: Uint8Array, width: number, step: number): Uint8Array | undefined {
  const height = rows.length / (width + 1);
  const out = new Uint8Array(height * width);
  for (let row = 0; row < height; row += 1) {
    const from = row * (width + 1);
    const to = row * width;
    const filter = rows[from]!;
    if (filter > 4) return undefined;
    for (let at = 0; at < width; at += 1) {
      const left = at < step ? 0 : out[to + at - step]!;
      const up = row === 0 ? 0 : out[to + at - width]!;
      const corner = row === 0 || at < step ? 0 : out[to + at - width - step]!;
      out[to + at] = rows[from + 1 + at]! + [0, left, up, (left + up) >> 1, nearest(left, up, corner)][filter]!;
    }
  }
  return out;
}

/** The one of the three that lies nearest to left + up - corner. */
function nearest(left: number, up: number, corner: number): number {
  const guess = left + up - corner;
  const [byLeft, byUp, byCorner] = [Math.abs(guess - left), Math.abs(guess - up), Math.abs(guess - corner)];
  if (byLeft <= byUp && byLeft <= byCorner) return left;
  return byUp <= byCorner ? up : corner;
}

/** zlib streams (RFC 1950) by the platform's own code. */
const through = (bytes: Uint8Array, stream: CompressionStream | DecompressionStream): ReadableStream<Uint8Array> =>
  new Blob([bytes as Uint8Array<ArrayBuffer>]).stream().pipeThrough(stream as ReadableWritablePair<Uint8Array, Uint8Array>);

/** Undefined unless exactly `length` bytes come out; stops as soon as there are more. */
async function inflate(bytes: Uint8Array, length: number): Promise<Uint8Array | undefined> {
  const out = new Uint8Array(length);
  let at = 0;
  try {
    // Left as it stands where there is more: cancelled, Node 20's unpacking throws where nobody can catch it.
    const reader = through(bytes, new DecompressionStream("deflate")).getReader();
    for (let read = await reader.read(); !read.done; read = await reader.read()) {
      if (at + read.value.length > length) return undefined;
      out.set(read.value, at);
      at += read.value.length;
    }
  } catch {
    return undefined;
  }
  return at === length ? out : undefined;
}

const deflate = async (bytes: Uint8Array): Promise<Uint8Array> =>
  new Uint8Array(await new Response(through(bytes, new CompressionStream("deflate"))).arrayBuffer());
