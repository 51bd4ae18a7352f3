/** Where a figure stands: in words a technician reads, and as a JSON pointer (RFC 6901). Both are made only when something is wrong. */
import type { Book } from "../book.js";
import type { Assembly, WorkItem } from "../input.js";
import { operationIdOf } from "../resolve.js";

export interface Spot {
  readonly words: () => string;
  readonly within?: Spot | undefined;
  readonly tokens: readonly (string | number)[];
}

export const spot = (words: () => string, ...tokens: readonly (string | number)[]): Spot => ({ words, tokens });

/** Deeper in the same place; `words` when it needs words of its own. */
export const inside = (within: Spot, tokens: readonly (string | number)[], words: () => string = within.words): Spot => ({
  words,
  within,
  tokens,
});

/** Deeper, and what stands there, such as 'price'. */
export const part = (within: Spot, what: string, ...tokens: readonly (string | number)[]): Spot =>
  inside(within, tokens, () => `${within.words()}, ${what}`);

export const found = (at: Spot): { readonly where: string; readonly pointer: string } => ({
  where: at.words(),
  pointer: pointerTo(at),
});

export function pointerTo({ within, tokens }: Spot): string {
  const here = tokens.map((token) => `/${String(token).replaceAll("~", "~0").replaceAll("/", "~1")}`).join("");
  return within ? pointerTo(within) + here : here;
}

export const tokensOf = (pointer: string): string[] =>
  pointer
    .split("/")
    .slice(1)
    .map((token) => token.replaceAll("~1", "/").replaceAll("~0", "~"));

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** "Electrolytic" becomes "electrolytic"; "IC, 14 pins" stays. */
const small = (text: string): string => (/^\p{Lu}\p{Ll}/u.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text);

export const whereAssembly = ({ sort, name }: Pick<Assembly, "sort" | "name">): string =>
  `${sort === "other" ? "Assembly" : capital(sort)} '${name}'`;

/** "Board 'Voice board', replace electrolytic". */
export function whereItem(item: WorkItem, assembly: Pick<Assembly, "sort" | "name"> | undefined, book: Book): string {
  const place = assembly ? whereAssembly(assembly) : "Unit as a whole";
  const operation = book.operations.get(operationIdOf(item))?.is;
  const part = item.part && partName(item.part, book);
  const work = operation?.name.trim() ? small(brief(operation.name)) : unknownWork(item);
  const joint = operation?.sort === "replacement" ? " " : ", ";
  return `${place}, ${work}${part ? `${joint}${small(part)}` : ""}`;
}

/** The shop's own words may be long. */
const brief = (text: string): string => (text.length > 60 ? `${text.slice(0, 60).trimEnd()}…` : text);

const unknownWork = ({ operation, own, service }: WorkItem): string =>
  own
    ? "own work"
    : service !== undefined
      ? `service '${service}'`
      : operation === undefined
        ? "work"
        : `operation '${operation}'`;

function partName(part: NonNullable<WorkItem["part"]>, { kinds, partTypes }: Book): string {
  if ("own" in part) return brief(part.own.name.trim()) || "own part";
  if ("kind" in part) return kinds.get(part.kind)?.is.name ?? `part kind '${part.kind}'`;
  return partTypes.get(part.type)?.is.name ?? `part type '${part.type}'`;
}
