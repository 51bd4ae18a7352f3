/** Text in aligned columns. '<' sets a column left, '>' right; the last column is not padded. */
export type Align = "<" | ">";

const GAP = "  ";

export function columns(rows: readonly (readonly string[])[], aligned: readonly Align[]): string[] {
  const wide = aligned.map((_, at) => Math.max(0, ...rows.map((row) => width(row[at] ?? ""))));
  return rows.map((row) =>
    aligned
      .map((align, at) => {
        const cell = row[at] ?? "";
        const fill = " ".repeat((wide[at] ?? 0) - width(cell));
        return align === ">" ? fill + cell : cell + fill;
      })
      .join(GAP)
      .trimEnd(),
  );
}

/** Breaks text at spaces; a word longer than the line stands alone. */
export function wrapped(text: string, wide: number, indent = ""): string[] {
  const lines: string[] = [];
  for (const word of text.split(/[ \n\t]+/).filter(Boolean)) {
    const last = lines.at(-1);
    if (last !== undefined && width(last) + 1 + width(word) <= wide - indent.length) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines.map((line) => indent + line);
}

const graphemes = new Intl.Segmenter("en", { granularity: "grapheme" });

/** As many places as a terminal gives it, near enough: one for each character a reader sees. */
function width(text: string): number {
  let places = 0;
  for (const _ of graphemes.segment(text)) places += 1;
  return places;
}
