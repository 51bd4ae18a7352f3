/** Parts that are yet to be got and whose days of delivery nobody said: they count as none, so whoever reads the day is told which they are. */
import type { EstimateInput, OwnPart } from "../input.js";
import { isCharged } from "../labour/groups.js";
import { ownPartOf, partOf, resolve } from "../resolve.js";
import type { PartResult, Sheet } from "../sheet.js";

/** Names, each once. A part counted by type alone is taken to be in stock. `fitted`: work whose parts are in place by now. */
export function unknownDelivery(input: EstimateInput, { parts }: Pick<Sheet, "parts">, fitted: readonly string[] = []): string[] {
  const { items, offers = [] } = resolve(input);
  const own = new Map(
    items.flatMap((item) => (item.part && "kind" in item.part ? [[item.part.kind, ownPartOf(item)] as const] : [])),
  );
  const offered = new Set(offers.map(({ kind }) => kind));
  const waiting = items.filter((item) => item.count > 0 && isCharged({ item }) && !fitted.includes(item.id)).map(partOf);
  const unknown = parts.filter(
    ({ kind, ...part }) =>
      isUnknown(part, own.get(kind ?? ""), offered.has(kind ?? "")) &&
      waiting.some((each) => each && "kind" in each && each.kind === kind),
  );
  return [...new Set(unknown.map(({ name }) => name))];
}

function isUnknown(
  { scarcity, because }: Pick<PartResult, "scarcity" | "because">,
  own: OwnPart | undefined,
  offered: boolean,
): boolean {
  if (because.is === "on the shelf" || scarcity === "in stock") return false;
  return own ? own.leadDays === undefined : !offered;
}
