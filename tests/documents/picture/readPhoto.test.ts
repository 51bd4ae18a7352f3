import { describe, expect, it } from "vitest";
import type { PhotoRead } from "../../../src/documents/picture/picture.js";
import { readPhoto } from "../../../src/documents/picture/readPicture.js";
import { turned } from "../../../src/documents/picture/turn.js";
import { chunk, exif, followedBy, jpeg, png, segment, webp, withSegments } from "../../http/support/pictures.js";

const text = (bytes: Uint8Array): string => Buffer.from(bytes).toString("latin1");
const data = (said: string) => new Uint8Array(Buffer.from(said, "latin1"));
const good = (file: Uint8Array): PhotoRead => {
  const read = readPhoto(file);
  expect(read).not.toHaveProperty("is");
  return read as PhotoRead;
};

describe("a photo that is sent", () => {
  it.each([
    ["image/jpeg", jpeg()],
    ["image/png", png(8, 4)],
    ["image/webp", webp()],
  ])("is told by what is in it: %s", (mime, file) => {
    expect(good(file)).toMatchObject({ mime, width: 8, height: 4, turn: 1 });
    expect(good(file).bytes).toEqual(file);
  });

  it.each([true, false])("loses where it was taken and keeps how it is turned, little-endian %s", (little) => {
    const xmp = segment(0xe1, data("http://ns.adobe.com/xap/1.0/\0<GPS>"));
    const read = good(withSegments(jpeg(), exif(6, little), xmp, segment(0xfe, data("GPS in a comment"))));
    expect(read.turn).toBe(6);
    expect(text(read.bytes)).not.toContain("GPS");
    // What is left says only how it is turned, and is read again the same.
    expect(good(read.bytes)).toMatchObject({ turn: 6, bytes: read.bytes });
    expect(read.bytes.length).toBe(jpeg().length + 36);
  });

  it("loses what stands behind its end, such as a film", () => {
    expect(good(followedBy(jpeg(), "GPS in a film")).bytes).toEqual(jpeg());
  });

  it("loses the texts and the Exif of a PNG", () => {
    const more = [
      chunk("tEXt", data("Comment\0GPS")),
      chunk("eXIf", data("MM GPS")),
      chunk("tIME", data("GPS....")),
      chunk("gAMA", data("\0\0\0\x01")),
    ];
    expect(good(png(8, 4, more)).bytes).toEqual(png(8, 4, [more[3]!]));
  });

  it("loses the Exif of a WebP", () => {
    const body = Buffer.concat([webp().subarray(12), Buffer.from("EXIF\x06\0\0\0MM GPS", "latin1")]);
    const head = Buffer.from("RIFF\0\0\0\0WEBP", "latin1");
    head.writeUInt32LE(body.length + 4, 4);
    expect(good(new Uint8Array(Buffer.concat([head, body]))).bytes).toEqual(webp());
  });
});

describe("a file that is not taken", () => {
  const BOMB = png(50_000, 50_000, [], 1);

  it.each([
    ["nothing", new Uint8Array(), "photo missing"],
    ["a text", data("photo.jpg"), "photo unreadable"],
    ["SVG, whatever its name", data('<svg xmlns="http://www.w3.org/2000/svg"/>'), "photo unreadable"],
    ["GIF", data("GIF89a\x01\0\x01\0"), "photo unreadable"],
    ["JPEG cut short", jpeg().subarray(0, jpeg().length - 3), "photo cut short"],
    ["JPEG cut within its head", jpeg().subarray(0, 40), "photo cut short"],
    ["PNG cut short", png(8, 4).subarray(0, 60), "photo cut short"],
    ["WebP cut short", webp().subarray(0, 50), "photo cut short"],
    ["a picture with no pixels", png(0, 4), "photo unreadable"],
    ["50,000 by 50,000 pixels in 100 kB", BOMB, "photo has too many pixels"],
    ["the same, cut short", BOMB.subarray(0, 60), "photo has too many pixels"],
    ["more than 8 MB", new Uint8Array(8 * 1024 * 1024 + 1), "photo too large"],
  ])("%s", (_, file, is) => {
    expect(readPhoto(file)).toMatchObject({ is });
  });

  it("nor any beginning of a good one, at whatever byte it ends", () => {
    for (const whole of [withSegments(jpeg(), exif(3)), png(8, 4), webp()])
      for (let end = 1; end < whole.length; end += 1) expect(readPhoto(whole.subarray(0, end)), String(end)).toHaveProperty("is");
  });

  it("reads bytes of any value without a fault of its own", () => {
    let seed = 1;
    const next = () => {
      seed = (seed * 1_103_515_245 + 12_345) % 2 ** 31;
      return seed;
    };
    for (const whole of [withSegments(jpeg(), exif(3)), png(8, 4), webp()])
      for (let run = 0; run < 300; run += 1) {
        const bytes = whole.slice();
        for (let change = 0; change < 4; change += 1) bytes[next() % bytes.length] = next() % 256;
        expect(() => readPhoto(bytes)).not.toThrow();
      }
  });
});

/**
 * Exif 2.32 (CIPA DC-008), 4.6.4 A, Orientation, from memory: where the 0th row and the 0th column of what is stored are seen.
 * A PDF draws the 0th row at the top of the unit square and the 0th column at its left (ISO 32000-1, 8.9.5.2).
 */
it.each([
  [1, "top", "left"],
  [2, "top", "right"],
  [3, "bottom", "right"],
  [4, "bottom", "left"],
  [5, "left", "top"],
  [6, "right", "top"],
  [7, "right", "bottom"],
  [8, "left", "bottom"],
])("turned %i, the first row is seen at the %s and the first column at the %s", (turn, row, column) => {
  const [x, y, width, height] = [10, 20, 300, 200];
  const [a, b, c, d, e, f] = turned(turn, [x, y, width, height]);
  const at = (u: number, v: number) => [a * u + c * v + e, b * u + d * v + f] as const;
  const side = ([right, up]: readonly [number, number]) =>
    right === x ? "left" : right === x + width ? "right" : up === y ? "bottom" : up === y + height ? "top" : "inside";
  expect([side(at(0.5, 1)), side(at(0, 0.5))]).toEqual([row, column]);
});
