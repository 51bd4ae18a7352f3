/** How hard a part is to get: the first row of the table below that fits. */
import type { IsoDate, Offer, Scarcity, ScarcityRules } from "../input.js";
import type { ScarcityReason } from "../sheet.js";
import { capacity, daysBetween } from "./catalogue.js";
import { meanShare, shareGoodOf } from "./shareGood.js";

const SHARE_SCALE = 1_000_000;

export interface ScarcityCase {
  readonly byHand?: Scarcity | undefined;
  readonly needed: number;
  readonly stock: number;
  /** Dated offers of the kind, in the estimate's currency. */
  readonly offers: readonly Offer[];
  readonly asOf: IsoDate;
  readonly rules: ScarcityRules;
}

export interface ScarcityClass {
  readonly scarcity: Scarcity;
  readonly because: ScarcityReason;
}

/** Pieces of an offer that can be expected to be good. */
function goodPieces(offer: Offer, rules: ScarcityRules): number {
  const share = Math.round(meanShare(shareGoodOf(offer, rules)) * SHARE_SCALE);
  return share === 0 ? 0 : Math.floor((capacity(offer) * share) / SHARE_SCALE);
}

export function scarcityOf({ byHand, needed, stock, offers, asOf, rules }: ScarcityCase): ScarcityClass {
  const fresh = offers.filter((offer) => daysBetween(offer.on, asOf) <= rules.freshDays);
  const standing = fresh.length > 0 ? fresh : offers;
  const newest =
    offers
      .map(({ on }) => on)
      .sort()
      .at(-1) ?? "";
  const offered = fresh.reduce((sum, offer) => sum + goodPieces(offer, rules), stock);
  const sources = new Set(fresh.map(({ source }) => source)).size;
  const madeNew = fresh.some(({ state }) => state === "new" || state === "reproduction");

  const table: readonly (readonly [fits: boolean, scarcity: Scarcity, because: ScarcityReason])[] = [
    [byHand !== undefined, byHand ?? "in stock", { is: "set by hand" }],
    [stock >= needed, "in stock", { is: "on the shelf", stock }],
    [offers.length === 0, "scarce", { is: "no offers" }],
    [standing.every(({ state }) => state === "donor pull"), "donor only", { is: "donor pulls only" }],
    [fresh.length === 0, "scarce", { is: "old offers only", newest }],
    [offered < needed, "scarce", { is: "not enough offered", offered, needed }],
    [madeNew, "to order", { is: "new parts offered", sources }],
    [sources < rules.fewSources, "scarce", { is: "few sources", sources }],
    [true, "to order", { is: "several sources", sources }],
  ];
  const [, scarcity, because] = table.find(([fits]) => fits)!;
  return { scarcity, because };
}
