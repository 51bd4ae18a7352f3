import { deflate, inflate } from "./inflate.js";
import { onWhite, onWhitePalette } from "./onWhite.js";
import { type Picture, type PictureFault, tooManyPixels } from "./picture.js";
import { type Chunk, chunksOf, joined, pngOf } from "./pngChunks.js";
import { type PngHead, pngHead, rowBytes } from "./pngHead.js";

/** The rows are unpacked once, so that none but a whole picture of the size it says is kept. What is see-through is laid on white. */
export async function readPng(file: Uint8Array): Promise<Picture | PictureFault> {
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
