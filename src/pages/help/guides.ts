/** The guides, and where a page or a word finds its own. Nothing in them is of a shop. */
import { answers } from "./answers.js";
import { estimates } from "./estimates.js";
import { type Guide, type Section, sectionsOf } from "./guide.js";
import { shop } from "./shop.js";
import { work } from "./work.js";

export const GUIDES: readonly Guide[] = [...estimates, ...answers, ...work, ...shop];

export const guideCalled = (slug: string): Guide | undefined => GUIDES.find((guide) => guide.slug === slug);

/** However the parameters are called: /estimates/:file{[^/]+\\.pdf} reads /estimates/:id.pdf. */
export const plainRoute = (path: string): string =>
  path
    .replaceAll(/:\w+\{[^}]*\\(\.\w+)\}/g, ":id$1")
    .replaceAll(/\{[^}]*\}/g, "")
    .replaceAll(/:\w+/g, ":id");

/** Where the help of a page stands; the index where no guide is its own. */
export function helpOf(route: string): string {
  const guide = GUIDES.find(({ pages }) => pages.includes(plainRoute(route)));
  return guide ? `/help/${guide.slug}` : "/help";
}

const folded = (text: string): readonly string[] =>
  text
    .normalize("NFD")
    .replaceAll(/\p{M}/gu, "")
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter(Boolean);

/** Sections in which every word begins a word, those whose head has one first; one of each guide. */
export function sectionsWith(typed: readonly string[], most: number): readonly Section[] {
  const wanted = typed.flatMap(folded);
  if (wanted.length === 0) return [];
  const having = (text: string) => {
    const there = folded(text);
    return wanted.filter((word) => there.some((each) => each.startsWith(word))).length;
  };
  const found = GUIDES.flatMap(sectionsOf)
    .filter(({ title, text }) => having(`${title} ${text}`) === wanted.length)
    .sort((a, b) => having(b.title) - having(a.title));
  return found.filter(({ guide }, at) => found.findIndex((other) => other.guide === guide) === at).slice(0, most);
}
