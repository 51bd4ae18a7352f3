/** Who gets what is there: the shelf first, then what is on order, in the order of the jobs. What is left is to get. */
import type { CurrencyCode } from "../input.js";
import type { JobPart } from "./jobParts.js";
import { partKey } from "./jobParts.js";

/** A job's need of one part. */
export interface OpenNeed extends Pick<JobPart, "part" | "buys"> {
  readonly job: string;
  readonly currency: CurrencyCode;
  /** Pieces still wanted, 0 or more. */
  readonly pieces: number;
}

export interface Claim extends OpenNeed {
  readonly fromStock: number;
  readonly onOrder: number;
  readonly toGet: number;
}

/** Counts by part kind; a part counted by type only has none. */
export interface Supplies {
  readonly stock: ReadonlyMap<string, number>;
  readonly onOrder: ReadonlyMap<string, number>;
}

/** Claims by part, in the order the parts are first needed; needs of nothing are left out. */
export function claimsOf(needs: readonly OpenNeed[], { stock, onOrder }: Supplies): Claim[][] {
  const left = { stock: new Map(stock), onOrder: new Map(onOrder) };
  const take = (from: Map<string, number>, kind: string | undefined, wanted: number): number => {
    if (kind === undefined) return 0;
    const taken = Math.min(wanted, Math.max(0, from.get(kind) ?? 0));
    from.set(kind, (from.get(kind) ?? 0) - taken);
    return taken;
  };
  const byPart = new Map<string, Claim[]>();
  for (const need of needs) {
    if (need.pieces === 0) continue;
    const fromStock = take(left.stock, need.part.kind, need.pieces);
    const ordered = take(left.onOrder, need.part.kind, need.pieces - fromStock);
    const claim = { ...need, fromStock, onOrder: ordered, toGet: need.pieces - fromStock - ordered };
    const key = partKey(need.part);
    const claims = byPart.get(key);
    if (claims) claims.push(claim);
    else byPart.set(key, [claim]);
  }
  return [...byPart.values()];
}
