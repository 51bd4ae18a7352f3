import type { Source } from "../estimating/sheet.js";
import { english } from "./english/index.js";
import type { Figures, Tongue } from "./tongue.js";

/** One plain sentence saying where an amount comes from. */
export function sourceText(source: Source, tongue: Tongue): string {
  const words = tongue.words ?? english;
  if (source.is === "rule") return words.rules[source.rule];
  if (source.is === "boards") return words.sources.counted(words.lines.boards(source.size, source.mounting, source.count));
  return (words.sources.texts[source.is] as (source: Source, figures: Figures) => string)(source, tongue);
}
