/** The demo job grown, under a fixed price, with faults that may turn up and parts that must be bought by plan (demo). */
import type { EstimateInput, Offer, PartKind, WorkItem } from "../../src/estimating/input.js";
import { base, ofSize } from "./demoJob.js";

/** `items` planned ones, `kinds` of them replacing a rare part each, offered three ways. */
export function withRareParts(items: number, kinds: number): EstimateInput {
  const planned = ofSize(items - kinds);
  const mayBeFound = base.items.filter(({ certainty }) => certainty.is === "if found");
  const rare = Array.from({ length: kinds }, (_, n) => `rare-${n}`);
  const replacement = base.items.find(({ operation, certainty }) => operation === "replace" && certainty.is === "planned")!;
  return {
    ...planned,
    items: [
      ...planned.items,
      ...mayBeFound,
      ...rare.map((kind, n): WorkItem => ({ ...replacement, id: kind, part: { kind }, count: 1 + (n % 5) })),
    ],
    kinds: [
      ...(base.kinds ?? []),
      ...rare.map((id, n): PartKind => ({ id, type: base.rateBook.partTypes[0]!.id, name: `Rare part ${n}` })),
    ],
    offers: [...(base.offers ?? []), ...rare.flatMap(offersOf)],
    policy: { ...base.policy, pricing: { is: "fixed price", confidencePercent: 80 } },
  };
}

const offersOf = (kind: string, n: number): Offer[] =>
  [0, 1, 2].map((way) => ({
    id: `${kind}-${way}`,
    kind,
    source: `Source ${(n + way) % 4}`,
    on: base.asOf,
    currency: base.currency,
    price: 800 + 130 * way + 90 * n,
    packSize: way === 2 ? 5 : 1,
    available: 10 + 5 * way,
    leadDays: 5 + way,
    state: way === 1 ? "used" : "new old stock",
    shareGood: 0.7 + 0.08 * way,
    freight: 450,
  }));
