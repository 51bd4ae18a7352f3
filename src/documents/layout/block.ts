/** What a document says, before it is set: plain data, in print order. Sets no figure and adds none. */
export type Block =
  | { readonly is: "title" | "shop" | "heading"; readonly text: string }
  | { readonly is: "paragraph"; readonly text: string; readonly small?: boolean }
  | { readonly is: "facts"; readonly facts: readonly Fact[]; readonly labels: number }
  | { readonly is: "columns"; readonly columns: readonly (readonly Block[])[]; readonly shares: readonly number[] }
  | { readonly is: "figures"; readonly figures: readonly Fact[] }
  | TableBlock
  | { readonly is: "cautions"; readonly title: string; readonly cautions: readonly Fact[]; readonly last?: string }
  | { readonly is: "choices"; readonly choices: readonly string[] }
  | { readonly is: "blanks"; readonly labels: readonly string[] }
  | { readonly is: "ruled"; readonly lines: number }
  | { readonly is: "square code"; readonly content: string }
  | { readonly is: "rule" }
  | { readonly is: "gap"; readonly height: number }
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
}

export interface Cell {
  readonly text: string;
  /** Smaller, under the text. */
  readonly note?: string;
  /** Drawn, not a character of the font. */
  readonly box?: "empty" | "ticked";
}
