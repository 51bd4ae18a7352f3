/**
 * In place of the metrics of PDF's standard fonts, a tenth of the Worker (wrangler.toml): every text is set in fonts of our own,
 * compiled when the project is built. pdf-lib names these three, and asks for them only when a standard font is embedded.
 */
const unused = (): never => {
  throw new Error("The documents embed no standard font.");
};

export const Font = { load: unused };
export const Encodings = { Symbol: undefined, ZapfDingbats: undefined, WinAnsi: undefined };
export const FontNames = {};
