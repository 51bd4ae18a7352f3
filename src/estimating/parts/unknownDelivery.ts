/** Parts that are yet to be got and whose days of delivery nobody said: they count as none, so whoever reads the day is told which they are. */
import type { EstimateInput, WorkItem } from "../input.js";
import { isCharged } from "../labour/groups.js";
import { ownPartOf, partOf, resolve } from "../resolve.js";
import type { Sheet } from "../sheet.js";

/** Names, each once. A part counted by type alone is taken to be in stock, unless it is said to be hard to get. `fitted`: work whose parts are in place by now. */
export function unknownDelivery(input: EstimateInput, { parts }: Pick<Sheet, "parts">, fitted: readonly string[] = []): string[] {
  const { items, offers = [] } = resolve(input);
  const offered = new Set(offers.map(({ kind }) => kind));
  const isKnown = (item: WorkItem): boolean => {
    const [own, part] = [ownPartOf(item), partOf(item)];
    if (own) return own.leadDays !== undefined;
    return item.partPrice?.leadDays !== undefined || (part !== undefined && "kind" in part && offered.has(part.kind));
  };
  const waiting = items.filter((item) => item.count > 0 && isCharged({ item }) && !fitted.includes(item.id) && !isKnown(item));
  const unknown = parts.filter(
    ({ scarcity, because, kind, type }) =>
      because.is !== "on the shelf" &&
      scarcity !== "in stock" &&
      waiting
        .map(partOf)
        .some((part) => part && ("kind" in part ? part.kind === kind : kind === undefined && part.type === type)),
  );
  return [...new Set(unknown.map(({ name }) => name))];
}
