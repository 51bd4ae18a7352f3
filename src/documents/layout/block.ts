/** What a document says, before it is set: plain data, in print order. Sets no figure and adds none. */
export type Block =
  | { readonly is: "title" | "shop" | "heading"; readonly text: string }
  /** One that leads is not parted from what follows; one that is large is read first. */
  | {
      readonly is: "paragraph";
      readonly text: string;
      readonly small?: boolean;
      readonly large?: boolean;
      readonly leads?: boolean;
    }
  /** A small paragraph in which `shown` leads to `to`, a web address. */
  | { readonly is: "link"; readonly before: string; readonly shown: string; readonly after: string; readonly to: string }
  | { readonly is: "facts"; readonly facts: readonly Fact[]; readonly labels: number }
  | { readonly is: "columns"; readonly columns: readonly (readonly Block[])[]; readonly shares: readonly number[] }
  | { readonly is: "figures"; readonly figures: readonly Fact[] }
  | TableBlock
  | { readonly is: "cautions"; readonly title: string; readonly cautions: readonly Fact[]; readonly last?: string }
  /** Small, one under the other. */
  | { readonly is: "list"; readonly items: readonly string[] }
  | { readonly is: "choices"; readonly choices: readonly string[] }
  | { readonly is: "blanks"; readonly labels: readonly string[] }
  | { readonly is: "ruled"; readonly lines: number }
  /** Leads where its content does, if that is a web address. */
  | { readonly is: "square code"; readonly content: string }
  | ChartBlock
  /** One of the document's pictures by its id, at a size in points. */
  | {
      readonly is: "picture";
      readonly picture: string;
      readonly alternative: string;
      readonly width: number;
      readonly height: number;
      /** As in Exif 2.32, tag Orientation; the size is that of the picture turned. */
      readonly turn?: number;
    }
  | { readonly is: "rule" }
  | { readonly is: "gap"; readonly height: number }
  /** What follows starts a page. */
  | { readonly is: "page" }
  /** Never broken over two pages. */
  | { readonly is: "together"; readonly blocks: readonly Block[] };

export interface Fact {
  readonly label: string;
  readonly value: string;
  readonly note?: string;
}

export interface TableBlock {
  readonly is: "table";
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
}

/** `fit`: as wide as its widest cell; `rest`: what is left over, shared; a number: points. */
export interface Column {
  readonly title: string;
  readonly width: "fit" | "rest" | number;
  readonly align?: "left" | "right";
}

export interface Row {
  readonly cells: readonly Cell[];
  /** `group` names what follows; `sum` and `total` never leave the row above. Absent: an ordinary line. */
  readonly kind?: "group" | "sum" | "total";
  /** Printed bold before the first cell's note, with a bar at the edge of the table. */
  readonly mark?: RowMark;
}

export interface RowMark {
  readonly text: string;
  readonly caution?: boolean;
}

export interface Cell {
  readonly text: string;
  /** Smaller, under the text. */
  readonly note?: string;
  /** Drawn, not a character of the font. */
  readonly box?: "empty" | "ticked";
}

/** A line over two scales. The values are drawn as they are given. */
export interface ChartBlock {
  readonly is: "chart";
  /** What the chart shows, for readers that do not look at it. */
  readonly alternative: string;
  readonly across: Scale;
  readonly up: Scale;
  readonly line: readonly Point[];
  readonly dots: readonly (Point & { readonly label: string })[];
  /** An upright line from edge to edge, named at its top. */
  readonly upright: { readonly at: number; readonly label: string };
}

export interface Scale {
  readonly title: string;
  readonly from: number;
  readonly to: number;
  readonly ticks: readonly { readonly at: number; readonly label: string }[];
}

interface Point {
  readonly across: number;
  readonly up: number;
}
