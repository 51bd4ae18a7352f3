import type { Warning } from "../estimating/sheet.js";
import { LOGO, type Subject } from "./estimate/subject.js";
import type { Block } from "./layout/block.js";
import { printDocument } from "./printDocument.js";
import { oneLine } from "./type/shape.js";

const DAY = /^\d{4}-\d\d-\d\d$/;

/** Prints what is said about an estimate on the shop's paper, and lists what the fonts lack. */
export async function printSubject(
  { sheet, paperwork, tongue, words, logo, photos }: Subject,
  title: string,
  blocks: readonly Block[],
): Promise<{ bytes: Uint8Array; warnings: Warning[] }> {
  const date = paperwork.date ?? sheet.asOf;
  const { bytes, missing } = await printDocument({
    title,
    language: languageTag(words.tag, tongue.locale),
    page: words.paper.furniture.page,
    paper: paperwork.paper ?? "A4",
    date: DAY.test(date) ? date : sheet.asOf,
    runningHead: title,
    // The record first: of a foot too long for its line the rest is cut off.
    foot: oneLine(
      [paperwork.chainHead && words.paper.furniture.record(paperwork.chainHead), paperwork.shop?.name]
        .filter(Boolean)
        .join(" · "),
    ),
    ...(paperwork.footer && { footer: paperwork.footer.map(oneLine) }),
    blocks,
    pictures: new Map([...(logo ? [[LOGO, logo] as const] : []), ...(photos ?? [])]),
  });
  const warnings = [...missing.found].map(
    ([text, characters]): Warning => ({ is: "missing glyphs", text, characters: [...characters] }),
  );
  return { bytes, warnings };
}

/** The words are in the language whatever the figures look like; where they are of the same one, the region is told too. */
const languageTag = (language: string, locale: string): string =>
  new RegExp(`^${language}(-[A-Za-z0-9]+)*$`).test(locale) ? locale : language;
