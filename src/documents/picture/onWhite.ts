/** What is see-through, laid on white paper. */
import { type PngHead, rowBytes, samplesOf } from "./pngHead.js";
import { unfilter } from "./unfilter.js";

const UP = 2;

const blend = (colour: number, alpha: number): number => Math.round((colour * alpha + 255 * (255 - alpha)) / 255);

export function onWhitePalette(colours: Uint8Array, alphas: Uint8Array): Uint8Array {
  return colours.map((colour, at) => blend(colour, alphas[Math.floor(at / 3)] ?? 255));
}

/** Rows of eight-bit samples without alpha, each as its difference from the row above; undefined for a filter there is none of. */
export function onWhite(rows: Uint8Array, head: PngHead): Uint8Array | undefined {
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
