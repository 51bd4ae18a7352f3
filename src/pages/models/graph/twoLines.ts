/** A name on two lines at most, broken between words where that is possible; what is too long ends in an ellipsis. */
export function twoLines(name: string, letters: number): readonly string[] {
  const words = name.trim().split(/\s+/);
  const lines: string[] = [""];
  for (const word of words) {
    const longer = `${lines.at(-1)} ${word}`.trim();
    if (longer.length <= letters || lines.at(-1) === "") lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  const shown = lines.length > 2 ? [lines[0]!, lines.slice(1).join(" ")] : lines;
  return shown.map((line) => (line.length > letters ? `${line.slice(0, letters - 1).trimEnd()}…` : line));
}
