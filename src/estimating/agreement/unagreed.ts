/** Work that no agreement covers: marked on the bench sheet, and refused by the work log unless overridden with a reason. */
import type { EstimateInput, WorkItem } from "../input.js";
import type { Unagreed } from "../problems.js";
import { same } from "./canonical.js";

/** `agreed`: the revision agreed to, with the options chosen (`withChoices`); undefined while there is no agreement. */
export function unagreed(current: EstimateInput, agreed: EstimateInput | undefined): Unagreed[] {
  const covered = new Map(agreed?.items.map((item) => [item.id, item]));
  return current.items.flatMap((item): Unagreed[] => {
    const why = agreed ? whyNot(item, covered.get(item.id)) : "nothing agreed";
    return why ? [{ id: item.id, why }] : [];
  });
}

function whyNot(item: WorkItem, agreed: WorkItem | undefined): Unagreed["why"] | undefined {
  if (!agreed) return "not in what was agreed";
  if (agreed.certainty.is === "optional" && !agreed.certainty.chosen) return "option not chosen";
  const what = ({ assembly, operation, part, minutes }: WorkItem) => ({ assembly, operation, part, minutes });
  if (!same(what(item), what(agreed))) return "changed since";
  return item.count > agreed.count ? "more than agreed" : undefined;
}
