import { type PDFContext, PDFRawStream, type PDFRef } from "pdf-lib";
import type { Cut } from "../type/pack.js";
import { Written } from "./written.js";

/** Nonsymbolic (ISO 32000-1, table 123). */
const FLAGS = 32;

interface Bytes {
  readonly program: Uint8Array;
  readonly toUnicode: Uint8Array;
}
const decoded = new WeakMap<Cut, Bytes>();

function bytesOf(cut: Cut): Bytes {
  const known = decoded.get(cut);
  if (known) return known;
  const bytes = { program: fromBase64(cut.program), toUnicode: fromBase64(cut.toUnicode) };
  decoded.set(cut, bytes);
  return bytes;
}

/** Adds a cut to the file as a composite font whose two-byte codes are glyph numbers (ISO 32000-1, 9.7). Deflated already: copied as it is. */
export function embedCut(context: PDFContext, cut: Cut): PDFRef {
  const { program, toUnicode } = bytesOf(cut);
  const stream = (bytes: Uint8Array, length: object): PDFRef =>
    context.register(PDFRawStream.of(context.obj({ Filter: "FlateDecode", ...length }), bytes));
  const file = stream(program, { Length1: cut.programLength });
  const unicode = stream(toUnicode, {});
  const write = (text: string): PDFRef => context.register(new Written(text));
  const descriptor = write(
    `<</Type/FontDescriptor/FontName/${cut.name}/Flags ${FLAGS}/FontBBox[${cut.box.join(" ")}]/ItalicAngle 0/Ascent ${cut.ascent}` +
      `/Descent ${cut.descent}/CapHeight ${cut.capHeight}/StemV ${cut.stem}/FontFile2 ${file}>>`,
  );
  const descendant = write(
    `<</Type/Font/Subtype/CIDFontType2/BaseFont/${cut.name}/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>` +
      `/FontDescriptor ${descriptor}/CIDToGIDMap/Identity/DW 0/W${cut.widths}>>`,
  );
  return write(
    `<</Type/Font/Subtype/Type0/BaseFont/${cut.name}/Encoding/Identity-H/DescendantFonts[${descendant}]/ToUnicode ${unicode}>>`,
  );
}

/** Standard base64 to bytes, on any runtime. */
function fromBase64(text: string): Uint8Array {
  const characters = atob(text);
  const bytes = new Uint8Array(characters.length);
  for (let at = 0; at < bytes.length; at += 1) bytes[at] = characters.charCodeAt(at);
  return bytes;
}
