import type { Weight } from "../type/typeface.js";
import { COLOUR, type Colour } from "./colour.js";

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
  body: style(8.8, 12),
  strong: style(8.8, 12, "bold"),
  small: style(7.8, 10.6, "regular", COLOUR.muted),
  label: style(7.8, 12, "regular", COLOUR.muted),
  tableHead: style(7.8, 11, "bold", COLOUR.muted),
  figure: style(11.5, 15, "bold"),
  total: style(11, 15, "bold"),
  caution: style(8.8, 12, "bold", COLOUR.caution),
} as const;
