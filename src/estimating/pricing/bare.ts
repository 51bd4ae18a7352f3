/** A job without the scarcity margins that buy plans take the place of. */

import { known } from "../book.js";
import type { Minor, RateBook } from "../input.js";
import { priceMilli, toMilli } from "../money/scales.js";
import { isBrought } from "../resolve.js";
import type { Line, PartResult, Totals } from "../sheet.js";
import { type Bought, isUsable, type KindPlan, type Purse } from "./buyPlans.js";
import { withMargins, withoutLines } from "./price.js";
import type { Priced, Workings } from "./workings.js";

const NOTHING: ReadonlySet<PartResult> = new Set();

/** Parts of the catalogue that some work has bought, as the price counts them: pieces beyond the shelf, and their cost without mark-up. By kind, in the order of the sheet. What is got as it was `before` is left out. */
export function boughtFor(
  { parts }: Pick<Priced, "parts">,
  { book, rateBook }: Workings,
  before: ReadonlySet<PartResult> = NOTHING,
): ReadonlyMap<string, Bought> {
  const lots = new Map<string, PartResult[]>();
  for (const result of parts.results)
    if (result.kind !== undefined && result.charged > 0 && !before.has(result))
      lots.set(result.kind, [...(lots.get(result.kind) ?? []), result]);
  const pullRate = known(book.classes, rateBook.accessClass).is.ratePerHour;
  const bought = new Map<string, Bought>();
  for (const [id, all] of lots) {
    const kind = known(book.kinds, id).is;
    if (isBrought(kind)) continue;
    // The shelf comes first.
    const own = (kind.stock ?? 0) > 0 ? all.slice(1) : all;
    if (own.length === 0) continue;
    const { type, name, scarcity } = own[0]!;
    const pulling = parts.pulls.filter(({ part }) => part.kind === id);
    bought.set(id, {
      kind,
      part: { type, kind: id, name },
      pieces: own.reduce((sum, { needed }) => sum + needed, 0),
      cost:
        own.reduce((sum, { cost }) => sum + cost, 0) +
        pulling.reduce((sum, { minutes }) => sum + priceMilli(toMilli(minutes), pullRate), 0),
      scarcity,
      offers: own.flatMap(({ offer }) => offer ?? []),
    });
  }
  return bought;
}

/** What some parts are bought beyond others. */
export function extraBought(more: Pick<Priced, "parts">, less: Pick<Priced, "parts">, workings: Workings): Bought[] {
  const before = boughtFor(less, workings);
  return [...boughtFor(more, workings).values()].flatMap((now): Bought[] => {
    const { pieces, cost } = before.get(now.kind.id) ?? { pieces: 0, cost: 0 };
    return now.pieces > pieces ? [{ ...now, pieces: now.pieces - pieces, cost: Math.max(0, now.cost - cost) }] : [];
  });
}

export interface Bare {
  readonly priced: Priced;
  readonly plans: readonly KindPlan[];
  readonly bought: ReadonlyMap<string, Bought>;
  readonly purse: Purse;
}

export function bareOf(counted: Priced, workings: Workings): Bare {
  const bought = boughtFor(counted, workings);
  const purse: Purse = {
    paid: new Map(counted.parts.freight.map(({ reason = "", amount }) => [reason, amount])),
    taken: new Map(),
  };
  const plans = workings.planner(bought.values(), purse);
  return { priced: withoutMargins(counted, plans, workings), plans, bought, purse };
}

/** Whether the rate book has what possible work shares paid once in the risk of a job. */
export const sharesRisk = ({ risk }: RateBook): boolean => risk === "shared";

/** What lines, allowances and charges come to. */
export const netOf = ({ linesNet, allowances, charges }: Totals): Minor => linesNet - allowances + charges;

export function withoutMargins(priced: Priced, plans: readonly KindPlan[], workings: Workings): Priced {
  const kinds = new Set(plans.filter(isUsable).map(({ bought }) => bought.kind.id));
  return withoutLines(
    priced,
    ({ sort, part }) => sort === "scarcity margin" && part?.kind !== undefined && kinds.has(part.kind),
    workings,
  );
}

/**
 * As counted, with what each hard part's buy plan is expected to spend beyond its catalogue cost in place of the percentage, where the
 * rate book wants it so.
 */
export function sourced(counted: Priced, workings: Workings): Priced {
  const { rateBook } = workings;
  if (rateBook.scarcity.marginFrom !== "offers") return counted;
  const { priced, plans } = bareOf(counted, workings);
  return withMargins(
    priced,
    plans.filter(isUsable).flatMap((one) => marginLine(one, rateBook)),
    workings,
  );
}

function marginLine({ bought, plan }: KindPlan, { tax }: RateBook): Line[] {
  const expected = Math.round(plan.expectedSpend);
  const amount = expected - bought.cost;
  if (amount <= 0) return [];
  return [
    {
      id: `scarcity:${bought.kind.id}`,
      sort: "scarcity margin",
      taxClass: "parts",
      taxCategory: tax.parts,
      part: bought.part,
      amount,
      why: {
        rule: "buy plan",
        needed: plan.needed,
        pieces: plan.buys.reduce((sum, { pieces }) => sum + pieces, 0),
        probability: plan.probability,
        expected,
        catalogue: bought.cost,
      },
      from: [
        { is: "rate book", entry: "/scarcity/serviceLevel" },
        { is: "rule", rule: "scarcity margin" },
      ],
    },
  ];
}
