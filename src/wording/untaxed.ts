/** Where all tax is 0 no word says that it is in a price: a shop that owes none may come to owe what its paper names. One place for paper, owner's page and answer. */
interface Taxes {
  readonly tax: number;
  readonly taxGroups: readonly { readonly name: string; readonly percent: number }[];
}

export const isUntaxed = ({ taxGroups, tax }: Taxes): boolean =>
  tax === 0 && taxGroups.length > 0 && taxGroups.every(({ percent }) => percent === 0);

/** What a language says of it, with the comma or the space before. */
const SAID = /,? (?:tax included|inkl\. Umsatzsteuer)(?: |(?=[.,;:]|$))/g;
const without = (text: string): string =>
  /^(?:Tax included|Inkl\. Umsatzsteuer)$/.test(text) ? "" : text.replace(SAID, (said) => (said.endsWith(" ") ? " " : ""));

/** Why there is none, where the shop named its category after it and not after the percent. */
export const whyUntaxed = ({ taxGroups }: Pick<Taxes, "taxGroups">): readonly string[] =>
  taxGroups.flatMap(({ name }) => (/\b0\s?%/.test(name) ? [] : [name]));

/** The same words, sentence by sentence, without it. */
export function untaxed<W extends object>(words: W): W {
  const known = made.get(words);
  if (known) return known as W;
  const bare = Object.fromEntries(Object.entries(words).map(([name, word]) => [name, bared(word)])) as W;
  made.set(words, bare);
  return bare;
}

const made = new WeakMap<object, object>();

function bared(word: unknown): unknown {
  if (typeof word === "string") return without(word);
  if (typeof word === "function") return (...given: unknown[]) => bared((word as (...given: unknown[]) => unknown)(...given));
  return word !== null && typeof word === "object" && !Array.isArray(word) && !(word instanceof RegExp) ? untaxed(word) : word;
}
