import { inflateSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { fitWithin, isFault, type Picture } from "../../../src/documents/picture/picture.js";
import { chunksOf } from "../../../src/documents/picture/png.js";
import { unfilter } from "../../../src/documents/picture/pngOnPaper.js";
import { readPicture } from "../../../src/documents/picture/readPicture.js";
import { jpeg, png } from "./files.js";

async function kept(file: Uint8Array): Promise<Picture> {
  const read = await readPicture(file);
  if (isFault(read)) throw new Error(read.is);
  return read;
}

const typesOf = ({ bytes }: Picture) => chunksOf(bytes)!.map(({ type }) => type);
const chunk = ({ bytes }: Picture, wanted: string) => chunksOf(bytes)!.find(({ type }) => type === wanted)!.data;
const pixels = (picture: Picture, samples: number) => [
  ...unfilter(inflateSync(chunk(picture, "IDAT")), picture.width * samples, samples)!,
];

describe("a picture that comes in", () => {
  const plain = png({ width: 3, height: 2, colour: "rgb", at: (x, y) => [x * 80, y * 200, 7] });

  it("is kept with its pixels and nothing else", async () => {
    const noted = png({
      width: 3,
      height: 2,
      colour: "rgb",
      at: (x, y) => [x * 80, y * 200, 7],
      more: [{ type: "tEXt", data: Buffer.from("Author\0a demo") }],
    });
    const picture = await kept(noted);
    expect([picture.kind, picture.width, picture.height]).toEqual(["png", 3, 2]);
    expect(typesOf(picture)).toEqual(["IHDR", "IDAT", "IEND"]);
    expect(Buffer.from(picture.bytes).equals((await kept(plain)).bytes)).toBe(true);
    expect(pixels(picture, 3).slice(0, 6)).toEqual([0, 0, 7, 80, 0, 7]);
  });

  it("is laid on white where it is see-through", async () => {
    const half = await kept(png({ width: 3, height: 1, colour: "rgb and alpha", at: (x) => [100, 0, 0, [0, 128, 255][x]!] }));
    expect(pixels(half, 3)).toEqual([255, 255, 255, 177, 127, 127, 100, 0, 0]);
    const grey = await kept(png({ width: 2, height: 2, colour: "grey and alpha", at: (x, y) => [10, x === y ? 255 : 0] }));
    expect(pixels(grey, 1)).toEqual([10, 255, 255, 10]);
    const palette = await kept(
      png({
        width: 2,
        height: 1,
        colour: "palette",
        at: (x) => [x],
        more: [
          { type: "PLTE", data: Uint8Array.of(0, 0, 0, 40, 50, 60) },
          { type: "tRNS", data: Uint8Array.of(0) },
        ],
      }),
    );
    expect([...chunk(palette, "PLTE")]).toEqual([255, 255, 255, 40, 50, 60]);
    expect(typesOf(palette)).not.toContain("tRNS");
  });

  it("undoes the row filters of PNG: worked by hand from ISO/IEC 15948, clause 9", () => {
    const rows = [0, 10, 20, 1, 5, 5, 2, 1, 1, 3, 4, 4, 4, 1, 1];
    expect([...unfilter(Uint8Array.from(rows), 2, 1)!]).toEqual([10, 20, 5, 10, 6, 11, 7, 13, 8, 14]);
    expect(unfilter(Uint8Array.of(5, 0), 1, 1)).toBeUndefined();
  });

  it("is kept as a JPEG without what a camera wrote into it", async () => {
    const picture = await kept(jpeg(640, 200));
    expect([picture.kind, picture.width, picture.height]).toEqual(["jpeg", 640, 200]);
    const bytes = Buffer.from(picture.bytes).toString("latin1");
    expect(bytes).toContain("JFIF");
    expect(bytes).not.toMatch(/Exif|demo/);
  });

  it("is kept as a JPEG to its end, and no further", async () => {
    const film = Uint8Array.from([...jpeg(10, 10), ...Buffer.from("a film of the same moment")]);
    expect((await kept(film)).bytes).toEqual((await kept(jpeg(10, 10))).bytes);
  });

  it.each([
    ["is a text", Buffer.from("<svg></svg>"), "not a picture"],
    ["is wider than 2,000 pixels", png({ width: 2001, height: 1, colour: "grey", at: () => [0] }), "too many pixels"],
    ["is a JPEG of 2,001 rows", jpeg(10, 2001), "too many pixels"],
    ["is interlaced", png({ width: 2, height: 2, colour: "grey", at: () => [0], interlaced: true }), "interlaced"],
    ["is a lossless JPEG", jpeg(10, 10, 0xc3), "unusual"],
    ["is cut off", plain.subarray(0, plain.length - 20), "damaged"],
    ["is a JPEG that is cut off", jpeg(10, 10).subarray(0, 60), "damaged"],
    ["has a check sum that differs", plain.map((byte, at) => (at === 20 ? byte ^ 1 : byte)), "damaged"],
  ])("is refused by name when it %s", async (_, file, name) => {
    expect(await readPicture(Uint8Array.from(file))).toMatchObject({ is: name });
  });

  it("is refused when it unpacks to more than it says, without unpacking it all", async () => {
    const bomb = png({ width: 2000, height: 2000, colour: "grey", at: () => [0] });
    const head = bomb.slice();
    const small = png({ width: 1, height: 1, colour: "grey", at: () => [0] });
    head.set(small.subarray(8, 33), 8);
    expect(await readPicture(head)).toEqual({ is: "damaged" });
  });
});

describe("the box of a logo", () => {
  const BOX = { width: 190, height: 54 };

  it("holds a long one by its width and a tall one by its height, and enlarges none", () => {
    expect(fitWithin({ width: 1900, height: 190 }, BOX)).toEqual({ width: 190, height: 19 });
    expect(fitWithin({ width: 108, height: 540 }, BOX)).toEqual({ width: 10.8, height: 54 });
    expect(fitWithin({ width: 32, height: 32 }, BOX)).toEqual({ width: 32, height: 32 });
  });
});
