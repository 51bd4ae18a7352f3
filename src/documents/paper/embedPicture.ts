import { type PDFContext, PDFRawStream, type PDFRef } from "pdf-lib";
import { jpegColours } from "../picture/jpeg.js";
import { joined, type Picture } from "../picture/picture.js";
import { chunksOf, pngHead, samplesOf } from "../picture/png.js";

/** Adds a picture to the file as it is: a PDF carries the pixels of a PNG, and a whole JPEG, without unpacking them (ISO 32000-1, 7.4.4 and 7.4.8). */
export function embedPicture(context: PDFContext, picture: Picture): PDFRef {
  const { entries, data } = picture.kind === "png" ? ofPng(context, picture) : ofJpeg(picture);
  const size = { Type: "XObject", Subtype: "Image", Width: picture.width, Height: picture.height };
  return context.register(PDFRawStream.of(context.obj({ ...size, ...entries }), data));
}

function ofPng(context: PDFContext, { bytes, width }: Picture) {
  const chunks = chunksOf(bytes) ?? [];
  const of = (wanted: string) => chunks.find(({ type }) => type === wanted)?.data;
  const head = pngHead(of("IHDR") ?? new Uint8Array());
  if (!head) throw new Error("A picture was kept that is no PNG.");
  const [palette, key] = [of("PLTE"), of("tRNS")];
  const space =
    head.colour === "palette" && palette
      ? ["Indexed", "DeviceRGB", palette.length / 3 - 1, context.register(PDFRawStream.of(context.obj({}), palette))]
      : head.colour === "grey"
        ? "DeviceGray"
        : "DeviceRGB";
  const colours = samplesOf(head);
  const entries = {
    ColorSpace: space,
    BitsPerComponent: head.depth,
    Filter: "FlateDecode",
    DecodeParms: { Predictor: 15, Colors: colours, BitsPerComponent: head.depth, Columns: width },
    ...(key && { Mask: masked(key) }),
  };
  return { entries, data: joined(chunks.filter(({ type }) => type === "IDAT").map(({ data }) => data)) };
}

/** The one colour that is not painted, as a range for each sample. */
const masked = (key: Uint8Array): number[] =>
  Array.from({ length: key.length / 2 }, (_, at) => (key[2 * at]! << 8) | key[2 * at + 1]!).flatMap((value) => [value, value]);

const SPACES: Readonly<Record<number, string>> = { 1: "DeviceGray", 3: "DeviceRGB", 4: "DeviceCMYK" };

function ofJpeg({ bytes }: Picture) {
  const { components, inverted } = jpegColours(bytes);
  const entries = {
    ColorSpace: SPACES[components]!,
    BitsPerComponent: 8,
    Filter: "DCTDecode",
    ...(inverted && { Decode: [1, 0, 1, 0, 1, 0, 1, 0] }),
  };
  return { entries, data: bytes };
}
