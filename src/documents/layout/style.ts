import type { Weight } from "../type/typeface.js";

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

/** Size and leading in points. */
export interface Style {
  readonly size: number;
  readonly leading: number;
  readonly weight: Weight;
  readonly colour: Colour;
}

const style = (size: number, leading: number, weight: Weight = "regular", colour: Colour = COLOUR.ink): Style => ({
  size,
  leading,
  weight,
  colour,
});

export const STYLE = {
  title: style(23, 28, "bold", COLOUR.accent),
  shop: style(14.5, 18.5, "bold"),
  heading: style(11.5, 15, "bold", COLOUR.accent),
  large: style(10.6, 14.6),
  body: style(8.8, 12),
  strong: style(8.8, 12, "bold"),
  small: style(7.8, 10.6, "regular", COLOUR.muted),
  label: style(7.8, 12, "regular", COLOUR.muted),
  tableHead: style(7.8, 11, "bold", COLOUR.muted),
  figure: style(11.5, 15, "bold"),
  total: style(11, 15, "bold"),
  caution: style(8.8, 12, "bold", COLOUR.caution),
} as const;
