/** Where an entry of the log is, in words: "Ines, board 'Voice board', replace electrolytic". */
import { type Index, indexed, readBook } from "../../book.js";
import { whereAssembly, whereItem } from "../../check/spot.js";
import type { Assembly, EstimateInput, WorkItem } from "../../input.js";
import type { PartUsed, Work } from "./workLog.js";

export interface Wording {
  readonly work: (work: Work) => string;
  readonly part: (part: PartUsed["part"]) => string;
}

/** Ids that the input does not have stand as they are. */
export function wordingFor(input: EstimateInput): Wording {
  const book = readBook(input);
  const assemblies: Index<Assembly> = indexed(input.map?.assemblies ?? [], ({ id }) => id);
  const items: Index<WorkItem> = indexed(input.items, ({ id }) => id);
  const work = (given: Work): string => {
    if (given.is === "pull") return `pull from a donor unit, offer '${given.offer}'`;
    if (given.is === "item") {
      const item = items.get(given.id)?.is;
      return item ? whereItem(item, assemblies.get(item.assembly ?? "")?.is, book) : `work item '${given.id}'`;
    }
    if (given.assembly === undefined) return "opening and refitting";
    const assembly = assemblies.get(given.assembly)?.is;
    return `${assembly ? whereAssembly(assembly) : `assembly '${given.assembly}'`}, opening and refitting`;
  };
  return {
    work: (given) => uncapped(work(given)),
    part: (part) =>
      "kind" in part ? (book.kinds.get(part.kind)?.is.name ?? part.kind) : (book.partTypes.get(part.type)?.is.name ?? part.type),
  };
}

const uncapped = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);
