/** The documents' few colours, as PDF operands (red green blue, 0 to 1). Text colours keep 4.5:1 on white and on the tint. */
const operands = (hex: number): string =>
  [hex >> 16, (hex >> 8) & 0xff, hex & 0xff].map((part) => String(Math.round((part / 255) * 1000) / 1000)).join(" ");

export const COLOUR = {
  ink: operands(0x1d2328),
  muted: operands(0x59636b),
  accent: operands(0x0d655a),
  tint: operands(0xeef3f2),
  rule: operands(0xcfd5d6),
  caution: operands(0x8a3b12),
  white: operands(0xffffff),
} as const;

export type Colour = (typeof COLOUR)[keyof typeof COLOUR];
