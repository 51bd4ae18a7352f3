/** A guide: one subject, which pages it is the help of, and what stands under each of its headings. */

export interface Guide {
  readonly slug: string;
  readonly title: string;
  readonly gist: string;
  /** Routes of the pages it is the help of; whatever their parameters are called, `:id`. */
  readonly pages: readonly string[];
  /** Markdown: headings of the second rank with an anchor, paragraphs, lists, tables. */
  readonly text: string;
}

/** A guide from its start to its end: what stands under each of its headings. */
export interface Section {
  readonly guide: Guide;
  readonly title: string;
  readonly href: string;
  readonly text: string;
}

const HEADING = /^## (.+?) \{#([\w-]+)\}\n/;

export const sectionsOf = (guide: Guide): readonly Section[] =>
  guide.text.split(/^(?=## )/m).flatMap((text) => {
    const [, title, anchor] = HEADING.exec(text) ?? [];
    if (anchor) return [{ guide, title: title!, href: `/help/${guide.slug}#${anchor}`, text: said(text.replace(HEADING, "")) }];
    const start = { guide, title: guide.title, href: `/help/${guide.slug}`, text: `${guide.gist}. ${said(text)}`.trim() };
    return [start];
  });

/** Without the marks. */
const said = (text: string): string =>
  text
    .replaceAll(/\[([^\]]+)\]\([^)]+\)/g, "$1")
    .replaceAll(/^\| ?-.*$/gm, "")
    .replaceAll(/\*+|`|^- |^\d+\. /gm, "")
    .replaceAll(/\|/g, " ")
    .replaceAll(/\s+/g, " ")
    .trim();
