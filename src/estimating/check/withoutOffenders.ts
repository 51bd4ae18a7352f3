/** The input without the entries that problems point into, so that the rest can still be priced. */
import type { EstimateInput } from "../input.js";
import type { Problem } from "../problems.js";
import { tokensOf } from "./spot.js";

const LISTS = ["items", "boards", "offers", "alreadyOpen", "openAtNoCharge", "toOpen"] as const;

/** Undefined when a problem lies in what everything rests on: the rate book, the map, the unit, the currency, the day. */
export function withoutOffenders(input: EstimateInput, problems: readonly Problem[]): EstimateInput | undefined {
  const dropped = new Map<string, Set<string>>();
  for (const { pointer } of problems) {
    const [root = "", entry] = tokensOf(pointer);
    const droppable = root === "policy" || LISTS.some((list) => list === root);
    if (!droppable || entry === undefined) return undefined;
    dropped.set(root, (dropped.get(root) ?? new Set()).add(entry));
  }
  const keep = <T>(list: readonly T[], name: string): T[] => list.filter((_, at) => !dropped.get(name)?.has(String(at)));
  const kept = LISTS.flatMap((name) => (input[name] ? [[name, keep<unknown>(input[name], name)] as const] : []));
  const policy = Object.entries(input.policy ?? {}).filter(([key]) => !dropped.get("policy")?.has(key));
  return { ...input, ...Object.fromEntries(kept), ...(input.policy && { policy: Object.fromEntries(policy) }) };
}
