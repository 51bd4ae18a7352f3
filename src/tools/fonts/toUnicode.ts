/** ToUnicode map of a cut (ISO 32000-1, 9.10.3): glyph number -> the first character that draws it. */
export function toUnicodeMap(glyphs: readonly number[], characters: readonly string[]): string {
  const first = new Map<number, string>();
  glyphs.forEach((glyph, index) => {
    if (!first.has(glyph)) first.set(glyph, characters[index]!);
  });
  const pairs = [...first]
    .sort(([a], [b]) => a - b)
    .map(
      ([glyph, character]) =>
        `<${hex(glyph)}><${[...Array(character.length).keys()].map((at) => hex(character.charCodeAt(at))).join("")}>`,
    );
  const blocks: string[] = [];
  for (let at = 0; at < pairs.length; at += 100) {
    const block = pairs.slice(at, at + 100);
    blocks.push(`${block.length} beginbfchar\n${block.join("\n")}\nendbfchar`);
  }
  return [
    "/CIDInit /ProcSet findresource begin 12 dict begin begincmap",
    "/CIDSystemInfo <</Registry(Adobe)/Ordering(UCS)/Supplement 0>> def",
    "/CMapName /Adobe-Identity-UCS def /CMapType 2 def",
    "1 begincodespacerange <0000><FFFF> endcodespacerange",
    ...blocks,
    "endcmap CMapName currentdict /CMap defineresource pop end end",
  ].join("\n");
}

const hex = (value: number): string => value.toString(16).toUpperCase().padStart(4, "0");
