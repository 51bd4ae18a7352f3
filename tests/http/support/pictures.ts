/** Small whole pictures, eight by four pixels of one colour, and what can be put into them. Made with a browser's canvas; demo. */
import { crc32, deflateSync } from "node:zlib";

const JPEG =
  "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDABsSFBcUERsXFhceHBsgKEIrKCUlKFE6PTBCYFVlZF9VXVtqeJmBanGQc1tdhbWGkJ6jq62rZ4C8ybqmx5moq6T/2wBDARweHigjKE4rK06kbl1upKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKSkpKT/wAARCAAEAAgDASIAAhEBAxEB/8QAFQABAQAAAAAAAAAAAAAAAAAAAAX/xAAUEAEAAAAAAAAAAAAAAAAAAAAA/8QAFQEBAQAAAAAAAAAAAAAAAAAAAgT/xAAUEQEAAAAAAAAAAAAAAAAAAAAA/9oADAMBAAIRAxEAPwCeAaN//9k=";
const WEBP = "UklGRi4AAABXRUJQVlA4ICIAAABwAQCdASoIAAQABABoJaACdAFAAAD+69j88D4r9PeAYIAA";

export const jpeg = (): Uint8Array => new Uint8Array(Buffer.from(JPEG, "base64"));
export const webp = (): Uint8Array => new Uint8Array(Buffer.from(WEBP, "base64"));

const joined = (...parts: readonly (Uint8Array | readonly number[])[]): Uint8Array =>
  new Uint8Array(Buffer.concat(parts.map((part) => Buffer.from(part as Uint8Array))));

export function chunk(type: string, data: Uint8Array): Uint8Array {
  const named = Buffer.concat([Buffer.from(type, "latin1"), data]);
  const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  sum.writeUInt32BE(crc32(named));
  return joined(length, named, sum);
}

const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

/** RGB of one colour, with other chunks before the pixels. */
export function png(width: number, height: number, more: readonly Uint8Array[] = [], rows = height): Uint8Array {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head[8] = 8;
  head[9] = 2;
  const pixels = deflateSync(Buffer.alloc(rows * (width * 3 + 1)));
  return joined(SIGNATURE, chunk("IHDR", head), ...more, chunk("IDAT", pixels), chunk("IEND", new Uint8Array()));
}

const ascii = (text: string): number[] => [...Buffer.from(text, "latin1")];

/** An APP1 with Exif: orientation, and where it was taken. */
export function exif(turn: number, little = true): Uint8Array {
  const view = new DataView(new ArrayBuffer(38));
  view.setUint16(0, little ? 0x4949 : 0x4d4d);
  view.setUint16(2, 42, little);
  view.setUint32(4, 8, little);
  view.setUint16(8, 2, little);
  const entry = (at: number, tag: number, type: number, value: number) => {
    view.setUint16(at, tag, little);
    view.setUint16(at + 2, type, little);
    view.setUint32(at + 4, 1, little);
    if (type === 3) view.setUint16(at + 8, value, little);
    else view.setUint32(at + 8, value, little);
  };
  entry(10, 0x0112, 3, turn);
  entry(22, 0x8825, 4, 0);
  const body = joined(ascii("Exif\0\0"), new Uint8Array(view.buffer), ascii("GPS 51.5 N 0.1 W"));
  return segment(0xe1, body);
}

export const segment = (marker: number, body: Uint8Array): Uint8Array =>
  joined([0xff, marker, (body.length + 2) >> 8, (body.length + 2) & 0xff], body);

/** Right after the start of the file. */
export const withSegments = (file: Uint8Array, ...segments: readonly Uint8Array[]): Uint8Array =>
  joined(file.subarray(0, 2), ...segments, file.subarray(2));

export const followedBy = (file: Uint8Array, text: string): Uint8Array => joined(file, ascii(text));

/** A JPEG with so many bytes more in its scan, where the pixels are. */
export const padded = (file: Uint8Array, bytes: number): Uint8Array =>
  joined(file.subarray(0, -2), new Uint8Array(bytes).fill(0x55), file.subarray(-2));
