/**
 * Bytes to text. The byte order mark says which Unicode it is (Unicode 15, 23.8, from memory); without one it is UTF-8 when it can
 * be read as UTF-8, otherwise Windows-1252, as spreadsheets write it. What was taken is always said.
 */
export type Decoded =
  | { readonly ok: true; readonly text: string; readonly encoding: string }
  | { readonly ok: false; readonly why: string };

const BOMS: readonly (readonly [mark: readonly number[], label: string, name: string])[] = [
  [[0xef, 0xbb, 0xbf], "utf-8", "UTF-8 with a byte order mark"],
  [[0xff, 0xfe], "utf-16le", "UTF-16, little endian"],
  [[0xfe, 0xff], "utf-16be", "UTF-16, big endian"],
];
/** Bytes that Windows-1252 gives no character. */
const UNUSED = new Set([0x81, 0x8d, 0x8f, 0x90, 0x9d]);

export function decode(bytes: Uint8Array): Decoded {
  const bom = BOMS.find(([mark]) => mark.every((byte, at) => bytes[at] === byte));
  if (bom) return read(bytes, bom[1], bom[2]);
  if (bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 3 && bytes[3] === 4)
    return { ok: false, why: "This is a workbook or an archive, not CSV; save the sheet as CSV and give that." };
  const nul = bytes.indexOf(0);
  if (nul >= 0) {
    // Letters of UTF-16 without a mark have every second byte 0.
    const [label, name] = nul % 2 === 1 ? ["utf-16le", "UTF-16, little endian"] : ["utf-16be", "UTF-16, big endian"];
    const zeros = bytes.slice(0, 200).filter((byte, at) => byte === 0 && at % 2 === nul % 2).length;
    if (zeros >= Math.min(200, bytes.length) / 4) return read(bytes, label!, `${name}, without a byte order mark`);
    return { ok: false, why: `This is not text: byte ${nul + 1} is 0. Save the sheet as CSV in UTF-8.` };
  }
  const utf8 = read(bytes, "utf-8", "UTF-8");
  if (utf8.ok) return utf8;
  const unused = bytes.findIndex((byte) => UNUSED.has(byte));
  if (unused >= 0)
    return {
      ok: false,
      why: `This is neither UTF-8 nor Windows-1252: byte ${unused + 1} is ${bytes[unused]!.toString(16)} (hexadecimal). Save the sheet as CSV in UTF-8.`,
    };
  return read(bytes, "windows-1252", "Windows-1252, as it is not UTF-8");
}

function read(bytes: Uint8Array, label: string, name: string): Decoded {
  try {
    return { ok: true, text: new TextDecoder(label, { fatal: true }).decode(bytes), encoding: name };
  } catch {
    return { ok: false, why: `It cannot be read as ${name}; save the sheet as CSV in UTF-8.` };
  }
}
