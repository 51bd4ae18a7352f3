/** What any entry is held to: work that is agreed, or an override with a reason and a name. Where it is, in words. */

import { type Index, indexed, readBook } from "../../book.js";
import { found, inside, type Spot, whereAssembly, whereItem } from "../../check/spot.js";
import type { Assembly, EstimateInput, WorkItem } from "../../input.js";
import type { LogProblem } from "../../problems.js";
import type { Covered } from "./covered.js";
import type { Override, PartUsed, Work } from "./workLog.js";

export interface Placed<Entry> {
  readonly entry: Entry;
  readonly here: Spot;
  /** What was worked on, in words. */
  readonly on: () => string;
}

type Bare = LogProblem extends infer Each ? (Each extends LogProblem ? Omit<Each, "where" | "pointer"> : never) : never;

export const at = (here: Spot, problem: Bare, ...tokens: (string | number)[]): LogProblem =>
  ({ ...problem, ...found(tokens.length === 0 ? here : inside(here, tokens)) }) as LogProblem;

/** `named` is where the entry names its work, `names` all that it may name. */
export function checkWork(
  { work, override }: { readonly work: Work; readonly override?: Override | undefined },
  here: Spot,
  named: Spot,
  names: EstimateInput,
  covered: Covered,
): LogProblem[] {
  const unknown = unknownId(work, names);
  if (unknown !== undefined) return [at(named, { name: "work unknown", id: unknown })];
  const why = covered.workNot(work);
  const allowed = !why || override;
  return [
    ...(allowed ? [] : [at(named, { name: "work not agreed", why })]),
    ...(override ? checkOverride(override, inside(here, ["override"])) : []),
  ];
}

function unknownId(work: Work, { items, map, offers = [] }: EstimateInput): string | undefined {
  const lacks = (list: readonly { readonly id: string }[], id: string) => (list.some((each) => each.id === id) ? undefined : id);
  if (work.is === "item") return lacks(items, work.id);
  if (work.is === "pull") return lacks(offers, work.offer);
  return work.assembly === undefined ? undefined : lacks(map?.assemblies ?? [], work.assembly);
}

export function checkOverride({ reason, by }: Override, here: Spot): LogProblem[] {
  const lacks = reason.trim() === "" ? "reason" : by.trim() === "" ? "name" : undefined;
  return lacks ? [at(here, { name: "override incomplete", lacks })] : [];
}

/** "board 'Voice board', replace electrolytic" */
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
      "own" in part
        ? part.own
        : "kind" in part
          ? (book.kinds.get(part.kind)?.is.name ?? part.kind)
          : (book.partTypes.get(part.type)?.is.name ?? part.type),
  };
}

const uncapped = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);
