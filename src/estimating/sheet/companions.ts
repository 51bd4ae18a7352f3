/** Work that usually goes with what is charged and is not an item yet, in the order of the rate book: offered, never added. */
import type { EstimateInput, Companion as Rule, WorkItem } from "../input.js";
import { partOf } from "../resolve.js";
import type { Companion } from "../sheet.js";
import { hazardsAt, mayTouchMains } from "./safety.js";

/** Options that are not chosen and work that may be found ask for nothing; what stands among the items in any way is not offered again. */
export function missingCompanions(input: EstimateInput): readonly Companion[] {
  const { items, map, kinds = [], rateBook, unit } = input;
  const done = items.filter(
    ({ count, certainty: { is }, certainty }) => count > 0 && (is === "planned" || ("chosen" in certainty && certainty.chosen)),
  );
  const there = new Set(items.filter(({ count }) => count > 0).map(({ operation }) => operation));
  return (rateBook.companions ?? []).flatMap((rule): Companion[] => {
    const operation = rateBook.operations.find(({ id }) => id === rule.operation);
    const because = done.filter((item) => asks(item, rule));
    // A memory that is known to be empty needs no saving.
    if (rule.first && unit.storedData === "") return [];
    if (!operation || there.has(rule.operation) || because.length === 0) return [];
    return [{ operation: { id: operation.id, name: operation.name }, reason: rule.reason, items: because.map(({ id }) => id) }];
  });

  /** Any one of what the rule names is enough. */
  function asks(item: WorkItem, { after }: Rule): boolean {
    const operation = rateBook.operations.find(({ id }) => id === item.operation);
    const part = partOf(item);
    const typeId = part && ("kind" in part ? kindType(part.kind) : part.type);
    const type = rateBook.partTypes.find(({ id }) => id === typeId);
    const place = map?.assemblies.find(({ id }) => id === item.assembly);
    const hazards = [
      ...(operation?.hazards ?? []),
      ...(type?.hazards ?? []),
      ...(place ? hazardsAt(place, input) : mayTouchMains(item, input)),
    ];
    return Boolean(
      (operation && after.sorts?.includes(operation.sort)) ||
        (type && after.families?.includes(type.family)) ||
        (place && after.places?.includes(place.sort)) ||
        hazards.some((hazard) => after.hazards?.includes(hazard)),
    );
  }

  function kindType(id: string): string | undefined {
    return kinds.find((kind) => kind.id === id)?.type;
  }
}
