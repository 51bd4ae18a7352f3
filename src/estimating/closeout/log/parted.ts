/** Entries of a log that were made under an agreement which the owner took back since. */
import type { EstimateInput } from "../../input.js";
import { coverage } from "./covered.js";
import type { WorkLog } from "./workLog.js";

/** The log without those entries, and they alone. */
export function partedLog(log: WorkLog, entries: readonly string[] = []): readonly [rest: WorkLog, then: WorkLog] {
  const named = new Set(entries);
  const only = (wanted: boolean): WorkLog => ({
    ...log,
    time: log.time.filter(({ id }) => named.has(id) === wanted),
    parts: log.parts.filter(({ id }) => named.has(id) === wanted),
  });
  return [only(false), only(true)];
}

/** The same beside an agreement that stands: what that has is its own. */
export function partedBeside(input: EstimateInput, log: WorkLog, entries: readonly string[] = []) {
  if (entries.length === 0) return partedLog(log);
  const { workNot } = coverage(input, input);
  const kept = [
    ...log.time.filter(({ work }) => !workNot(work)),
    ...log.parts.filter(({ item }) => !workNot({ is: "item", id: item })),
  ].map(({ id }) => id);
  return partedLog(
    log,
    entries.filter((id) => !kept.includes(id)),
  );
}

/** It was agreed then, whatever the revision that was declined in the end still holds. */
export function withoutThen<P extends { readonly name: string; readonly pointer: string }>(
  problems: readonly P[],
  { time, parts }: WorkLog,
  entries: readonly string[] = [],
): readonly P[] {
  const own = new Set([
    ...time.flatMap(({ id }, index) => (entries.includes(id) ? [`/time/${index}/work`] : [])),
    ...parts.flatMap(({ id }, index) => (entries.includes(id) ? [`/parts/${index}/item`, `/parts/${index}/part`] : [])),
  ]);
  return problems.filter(({ name, pointer }) => !(NOT_AGREED.includes(name) && own.has(pointer)));
}

const NOT_AGREED: readonly string[] = ["work not agreed", "part not agreed"];
