/** What the shop reads about the risk of a quote. Nothing of it is for the owner. */
import { addDays } from "../day.js";
import type { Minor } from "../input.js";
import { nameOf } from "../options/nameOf.js";
import type { Priced } from "../price.js";
import { assess } from "../risk/assess.js";
import { completion } from "../risk/completion.js";
import type { Contribution } from "../risk/contributions.js";
import type { Line, PlannedBuy, RiskShare, RiskSummary } from "../sheet.js";
import type { Workings } from "../workings.js";
import type { KindPlan } from "./buyPlans.js";
import type { JobRisk } from "./jobRisk.js";
import { type Quote, weigh } from "./quote.js";

const CURVE_POINTS = 41;
const EXPLAINED = 0.8;

export function riskSummary(counted: Priced, { used, weighed: ready }: Quote, workings: Workings): RiskSummary {
  const { bare, risk } = ready ?? weigh(counted, workings);
  const { input, rateBook } = workings;
  const price = used.ceiling ?? used.price;
  const { tried, contributions, curve, expected, ...figures } = assess(risk.model, {
    price,
    curvePoints: CURVE_POINTS,
    explain: EXPLAINED,
  });
  const days = completion(risk.completion);
  const on = (count: number) => ({ days: count, on: addDays(input.asOf, count) });
  const plannedBuy = ({ bought, plan }: KindPlan, group?: string): PlannedBuy => {
    const { outcomes: _, exact: __, expectedSpend, ...rest } = plan;
    const { serviceLevel } = rateBook.scarcity;
    return { part: bought.part, ...(group && { group }), serviceLevel, ...rest, expectedSpend: Math.round(expectedSpend) };
  };
  return {
    taxIncluded: rateBook.tax.included,
    expected: whole(expected),
    ...figures,
    tried: tried!,
    curve: rising(curve),
    contributions: contributions.map((each) => shareOf(each, risk, workings)),
    buyPlans: [
      ...bare.plans.map((each) => plannedBuy(each)),
      ...risk.found.flatMap(({ id, plans }) => plans.map((each) => plannedBuy(each, id))),
    ],
    completion: { p50: on(days.p50), p80: on(days.p80) },
    pricing: { ...used, deterministic: risk.deterministic },
  };
}

/** Never -0, which JSON does not keep. */
const whole = (amount: Minor): Minor => amount + 0;

/** Points of a narrow curve may fall on one amount: the last of them is the chance there. */
const rising = (curve: RiskSummary["curve"]): RiskSummary["curve"] =>
  curve
    .filter(({ amount }, at) => amount !== curve[at + 1]?.amount)
    .map(({ amount, chance }) => ({ amount: whole(amount), chance }));

function shareOf({ source, id, takesOff }: Contribution, risk: JobRisk, workings: Workings): RiskShare {
  const { grade, book } = workings;
  const share = { source, takesOff: whole(takesOff) };
  switch (source) {
    case "condition":
      return { ...share, id: grade.is.id, name: grade.is.name };
    case "sourcing":
      return { ...share, id, name: book.kinds.get(id)?.is.name ?? id };
    case "if found": {
      const ids = new Set(risk.found.find((group) => group.id === id)?.items);
      const names = workings.items.filter(({ item }) => ids.has(item.id)).map((read) => nameOf(read, workings));
      return { ...share, id, name: names.join("; ") };
    }
    case "labour": {
      const line = risk.lines.get(id);
      return { ...share, id, name: line ? lineName(line, workings) : id };
    }
  }
}

function lineName({ id, assembly, from }: Line, workings: Workings): string {
  const read = workings.items.find(({ item }) => id === `labour:${item.id}`);
  if (read) return nameOf(read, workings);
  const boards = from.find((source) => source.is === "boards");
  return assembly?.name ?? (boards ? `${boards.size} boards ${boards.mounting} × ${boards.count}` : id);
}
