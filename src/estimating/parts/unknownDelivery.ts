/** Parts that are yet to be got and whose days of delivery nobody said: they count as none, so whoever reads the day is told which they are. */
import type { EstimateInput, OwnPart } from "../input.js";
import { ownPartOf, resolve } from "../resolve.js";
import type { PartResult, Sheet } from "../sheet.js";

/** Names, each once. A part counted by type alone is taken to be in stock. */
export function unknownDelivery(input: EstimateInput, { parts }: Pick<Sheet, "parts">): string[] {
  const { items, offers = [] } = resolve(input);
  const own = new Map(
    items.flatMap((item) => (item.part && "kind" in item.part ? [[item.part.kind, ownPartOf(item)] as const] : [])),
  );
  const offered = new Set(offers.map(({ kind }) => kind));
  const unknown = parts.filter((part) => isUnknown(part, own.get(part.kind ?? ""), offered.has(part.kind ?? "")));
  return [...new Set(unknown.map(({ name }) => name))];
}

function isUnknown({ scarcity, because }: PartResult, own: OwnPart | undefined, offered: boolean): boolean {
  if (because.is === "on the shelf" || scarcity === "in stock") return false;
  return own ? own.leadDays === undefined : !offered;
}
