/**
 * Work found while the unit is open. The revised estimate is that of the whole job with the work added: access that was charged
 * stays charged, once, and what the job opens anyway adds none. Assemblies that stand open beyond that are open at no charge.
 */
import { check } from "../check/check.js";
import type { Assembly, BoardCount, EstimateInput, Minor, Minutes, WorkItem } from "../input.js";
import { fromMilli } from "../money/scales.js";
import { milliReckoned } from "../pricing/price.js";
import { type PricedInput, pricedInput } from "../pricing/total.js";
import type { Priced } from "../pricing/workings.js";
import type { Problem } from "../problems.js";

interface Extra {
  readonly items: readonly WorkItem[];
  /** Places that the job's map does not have yet. */
  readonly assemblies?: readonly Assembly[];
  /** Counts level: boards to open that the job does not count yet. */
  readonly boards?: readonly BoardCount[];
}

export interface ExtraCost {
  /** Tax included. */
  readonly price: Minor;
  readonly net: Minor;
  /** Bench minutes, attended and unattended, expected where that is charged, else likely; before billing steps. */
  readonly minutes: Minutes;
  /** Names of the assemblies that come off for it. */
  readonly opens: readonly string[];
}

export type ExtraFault =
  | {
      readonly ok: true;
      /** The whole job with the work added, as it was given: what revision n+1 is made of. */
      readonly revised: EstimateInput;
      /** What doing the work adds, the unit being as open as it is, options and possible work taken as done. */
      readonly now: ExtraCost;
      /** The same work at a visit of its own, everything closed: no fees, no terms of today. */
      readonly later: ExtraCost;
      /** True where some of the work names no assembly: a later visit would cost at least this, and opening on top. */
      readonly laterAtLeast: boolean;
    }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/**
 * `open`: ids of the assemblies that stand open; those the job opens anyway need not be named. Problems, such as an id that is taken
 * already, point into the revised input.
 */
export function extraFault(input: EstimateInput, extra: Extra, open: readonly string[] = []): ExtraFault {
  const own = check(input);
  if (own.length > 0) return { ok: false, problems: own };
  const before = pricedInput(input);
  const standing = withOpen(input, open, before);
  const revised = withExtra(standing, extra);
  const problems = check(revised);
  if (problems.length > 0) return { ok: false, problems };
  const items = extra.items.map((item): WorkItem => ({ ...item, certainty: { is: "planned" } }));
  return {
    ok: true,
    revised,
    now: costOf(pricedInput(withExtra(standing, { ...extra, items })), before),
    later: costOf(pricedInput(atALaterVisit(input, { ...extra, items }))),
    laterAtLeast: (extra.boards ?? []).length === 0 && items.some(({ assembly, count }) => assembly === undefined && count > 0),
  };
}

/** What the job opens is charged already, and stays so. */
function withOpen(input: EstimateInput, open: readonly string[], { workings: { map }, priced }: PricedInput): EstimateInput {
  const covered = (id: string) => {
    const place = map.at.get(id);
    return place !== undefined && (priced.off.has(place) || priced.visit.open.has(place));
  };
  const free = [...new Set(open)].filter((id) => !covered(id));
  return free.length === 0 ? input : { ...input, openAtNoCharge: [...(input.openAtNoCharge ?? []), ...free] };
}

function withExtra(input: EstimateInput, { items, assemblies = [], boards = [] }: Extra): EstimateInput {
  return {
    ...input,
    ...(assemblies.length > 0 && { map: { ...input.map, assemblies: [...(input.map?.assemblies ?? []), ...assemblies] } }),
    items: [...input.items, ...items],
    ...(boards.length > 0 && { boards: [...(input.boards ?? []), ...boards] }),
  };
}

function atALaterVisit(input: EstimateInput, extra: Extra): EstimateInput {
  const { boards: _, alreadyOpen: __, openAtNoCharge: ___, toOpen: ____, policy, ...rest } = input;
  const { scarcityByType } = policy ?? {};
  return withExtra({ ...rest, items: [], ...(scarcityByType && { policy: { scarcityByType } }) }, extra);
}

function costOf({ workings, priced }: PricedInput, before?: PricedInput): ExtraCost {
  const was = before?.priced;
  const opened = new Set(was?.opened);
  const taken = (all: Priced) => milliReckoned(all, workings.rateBook);
  return {
    price: priced.totals.total - (was?.totals.total ?? 0),
    net: priced.totals.withoutTax - (was?.totals.withoutTax ?? 0),
    minutes: fromMilli(taken(priced) - (was ? taken(was) : 0)),
    opens: priced.opened.filter((place) => !opened.has(place)).map((place) => workings.map.assemblies[place]!.name),
  };
}
