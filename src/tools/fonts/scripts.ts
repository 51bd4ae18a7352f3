/** Which pack a character is cut into. Ohm and micro signs live with the Latin digits they follow, so that a value needs one pack. */
export const SCRIPTS = ["basic", "latin", "greek", "cyrillic"] as const;
export type Script = (typeof SCRIPTS)[number];

const OHM = 0x03a9;
const MU = 0x03bc;
/** Stands for what the fonts lack. */
const REPLACEMENT = 0xfffd;

/** undefined: not printed as itself (layout characters, private use). */
export function scriptOf(code: number): Script | undefined {
  if (code < 0x20 || (code >= 0x7f && code <= 0xa0) || code === 0xad) return undefined;
  if ((code >= 0x2000 && code <= 0x200f) || (code >= 0x2028 && code <= 0x202f) || (code >= 0x205f && code <= 0x206f))
    return undefined;
  if (code < 0x100 || code === OHM || code === MU || code === REPLACEMENT) return "basic";
  if (code < 0x370 || (code >= 0x1e00 && code < 0x1f00) || (code >= 0xfb00 && code < 0xfb07)) return "latin";
  if (code < 0x400) return "greek";
  if (code < 0x530) return "cyrillic";
  if ((code >= 0x2000 && code < 0x2c00) || code === 0xe3f) return "basic";
  return undefined;
}
