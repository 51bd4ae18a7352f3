/** Own words, a service and a price of one line travel through the form as they were said, and stand as long as the boxes still name them. */

import type { OwnPart, OwnWork, PartPrice, WorkItem } from "../../estimating/input.js";
import { HAZARDS } from "../../estimating/lists.js";

interface OwnWords {
  readonly own?: OwnWork;
  readonly service?: string;
  readonly ownPart?: OwnPart;
  readonly partPrice?: PartPrice;
}

export function ownWordsText({ own, service, part, partPrice }: WorkItem): string | undefined {
  const ownPart = part && "own" in part ? part.own : undefined;
  return own || service !== undefined || ownPart || partPrice ? JSON.stringify({ own, service, ownPart, partPrice }) : undefined;
}

/** Undefined where the text was tampered with. */
export function readOwnWords(text: string | undefined): OwnWords | undefined {
  if (!text) return undefined;
  try {
    const { own, service, ownPart, partPrice } = JSON.parse(text) as Record<string, unknown>;
    const sound =
      shaped(own, { name: "string" }, { labourClass: "string", price: "number" }, ["minutes"]) &&
      (service === undefined || typeof service === "string") &&
      shaped(ownPart, { name: "string" }, PART) &&
      shaped(partPrice, { cost: "number", reason: "string" }, { source: "string" });
    return sound ? ({ own, service, ownPart, partPrice } as OwnWords) : undefined;
  } catch {
    return undefined;
  }
}

type Kinds = Readonly<Record<string, "string" | "number" | "boolean">>;
const PART: Kinds = {
  ...{ type: "string", broughtByOwner: "boolean", cost: "number", source: "string", state: "string" },
  ...{ leadDays: "number", packSize: "number", minimumPacks: "number", shareGood: "number" },
};

function shaped(value: unknown, needed: Kinds, optional: Kinds, times: readonly string[] = []): boolean {
  if (value === undefined) return true;
  if (typeof value !== "object" || value === null) return false;
  const inner = value as Record<string, unknown>;
  const minute = { low: "number", likely: "number", high: "number" } as const;
  return (
    Object.entries(needed).every(([key, kind]) => typeof inner[key] === kind) &&
    Object.entries(inner).every(([key, each]) => {
      if (key === "hazards" && times.length > 0) return Array.isArray(each) && each.every((one) => HAZARDS.includes(one));
      if (times.includes(key)) return shaped(each, minute, {});
      return (needed[key] ?? optional[key]) === typeof each;
    })
  );
}
