/** What counts until someone says otherwise: mains inside and a charged supply, and a memory that a cell keeps. General practice of the trade, no source. */
import type { Assembly, EstimateInput, Hazard, WorkItem } from "../input.js";
import { behindOf, partOf } from "../resolve.js";
import type { Sheet } from "../sheet.js";

const MAINS: Hazard = "mains and stored charge";

/** Whether its supply is taken for a charged one. */
export const countsAsMains = ({ unit, rateBook }: EstimateInput): boolean =>
  unit.power === "mains" || (unit.power === undefined && rateBook.safety === "by default");

/** What is said of an assembly, and what its sort brings. */
export const hazardsAt = ({ sort, hazards = [] }: Assembly, input: EstimateInput): readonly Hazard[] =>
  sort === "supply" && !hazards.includes(MAINS) && countsAsMains(input) ? [MAINS, ...hazards] : hazards;

/** Where no place is named, parts may be of the supply. */
export const mayTouchMains = (item: WorkItem, input: EstimateInput): readonly Hazard[] =>
  item.assembly === undefined && partOf(item) && countsAsMains(input) ? [MAINS] : [];

const isOnTheBench = ({ count, certainty }: WorkItem): boolean => count > 0 && (certainty.is !== "optional" || certainty.chosen);

/** Of the input as resolved. Nothing where the unit is known to hold nothing. */
export function memoryOf({ items, unit, kinds = [], rateBook }: EstimateInput): Sheet["memory"] {
  if (rateBook.safety !== "by default" || unit.storedData === "") return undefined;
  const onTheBench = items.filter(isOnTheBench);
  const isCell = (item: WorkItem) => {
    const part = partOf(item);
    const typeId = part && ("kind" in part ? kinds.find(({ id }) => id === part.kind)?.type : part.type);
    return rateBook.partTypes.find(({ id }) => id === typeId)?.family === "cell";
  };
  const ids = (of: readonly WorkItem[]) => [...new Set(of.map((item) => behindOf(item) ?? item.id))];
  const cells = ids(onTheBench.filter(isCell));
  if (cells.length === 0) return undefined;
  const first = new Set((rateBook.companions ?? []).flatMap((rule) => (rule.first ? [rule.operation] : [])));
  return {
    asked: unit.storedData !== undefined,
    cells,
    saved: ids(onTheBench.filter(({ operation }) => first.has(operation ?? ""))).filter((id) => !cells.includes(id)),
  };
}
