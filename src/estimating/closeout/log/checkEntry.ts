/** What any entry is held to: work that is agreed, or an override with a reason and a name. */
import { found, inside, type Spot } from "../../check/spot.js";
import type { EstimateInput } from "../../input.js";
import type { LogProblem } from "../../problems.js";
import type { Covered } from "./covered.js";
import type { Override, Work } from "./workLog.js";

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
