/** Where a problem is, in words a technician reads: "Board 'Voice board', replace electrolytic". */
import type { Book } from "../book.js";
import type { Assembly, WorkItem } from "../input.js";

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** "Electrolytic" becomes "electrolytic"; "IC, 14 pins" stays. */
const small = (text: string): string => (/^\p{Lu}\p{Ll}/u.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text);

export const whereAssembly = ({ sort, name }: Pick<Assembly, "sort" | "name">): string =>
  `${sort === "other" ? "Assembly" : capital(sort)} '${name}'`;

export function whereItem(
  item: Pick<WorkItem, "operation" | "part">,
  assembly: Pick<Assembly, "sort" | "name"> | undefined,
  book: Book,
): string {
  const place = assembly ? whereAssembly(assembly) : "Unit as a whole";
  const operation = book.operations.get(item.operation)?.is;
  const part = item.part && partName(item.part, book);
  const work = operation ? small(operation.name) : `operation '${item.operation}'`;
  const joint = operation?.sort === "replacement" ? " " : ", ";
  return `${place}, ${work}${part ? `${joint}${small(part)}` : ""}`;
}

function partName(part: NonNullable<WorkItem["part"]>, { kinds, partTypes }: Book): string {
  if ("kind" in part) return kinds.get(part.kind)?.is.name ?? `part kind '${part.kind}'`;
  return partTypes.get(part.type)?.is.name ?? `part type '${part.type}'`;
}
