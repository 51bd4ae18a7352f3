/** What the shop reads about the risk of a quote. Nothing of it is for the owner. */
import { addDays } from "../day.js";
import type { Minor } from "../input.js";
import { nameOf } from "../labour/groups.js";
import { assess } from "../risk/assess.js";
import { completion } from "../risk/completion.js";
import type { Contribution } from "../risk/contributions.js";
import { termsOf } from "../risk/terms.js";
import type { Line, PlannedBuy, RiskShare, RiskSummary } from "../sheet.js";
import type { KindPlan } from "./buyPlans.js";
import type { JobRisk } from "./jobRisk.js";
import { type Quote, weigh } from "./quote.js";
import type { Priced, Workings } from "./workings.js";

const CURVE_POINTS = 41;
const EXPLAINED = 0.8;

/** `held`: what holds in place of the ceiling that the pricing asks for. */
export function riskSummary(counted: Priced, { used, weighed: ready }: Quote, workings: Workings, held?: Minor): RiskSummary {
  const { bare, risk, total } = ready ?? weigh(counted, workings);
  const { input, rateBook } = workings;
  const price = held ?? used.ceiling ?? used.price;
  const { raisedTo, ...asked } = used;
  const ask = { price, curvePoints: CURVE_POINTS, explain: EXPLAINED };
  const { tried, contributions, curve, expected, ...figures } = assess(risk.model, ask, total);
  const names = namesOf(risk, workings);
  const days = completion(risk.completion());
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
    contributions: contributions.map((each) => shareOf(each, workings.grade.is.id, names)),
    buyPlans: [
      ...bare.plans.map((each) => plannedBuy(each)),
      ...risk.found.flatMap(({ id, plans }) => plans.map((each) => plannedBuy(each, id))),
    ],
    completion: { p50: on(days.p50), p80: on(days.p80) },
    ...(termsOf(risk.model).clusters.some(({ exact }) => !exact) && { bounded: true as const }),
    pricing: { ...asked, ...(raisedTo && held === undefined && { raisedTo }), deterministic: risk.deterministic },
  };
}

/** Never -0, which JSON does not keep. */
const whole = (amount: Minor): Minor => amount + 0;

/** Points of a narrow curve may fall on one amount: the last of them is the chance there. */
const rising = (curve: RiskSummary["curve"]): RiskSummary["curve"] =>
  curve
    .filter(({ amount }, at) => amount !== curve[at + 1]?.amount)
    .map(({ amount, chance }) => ({ amount: whole(amount), chance }));

type Names = Readonly<Record<RiskShare["source"], (id: string) => string>>;

function shareOf({ source, id, takesOff }: Contribution, grade: string, names: Names): RiskShare {
  return { source, takesOff: whole(takesOff), id: source === "condition" ? grade : id, name: names[source](id) };
}

/** Of what carries risk, by its id. */
function namesOf({ found, lines: linesOf }: JobRisk, workings: Workings): Names {
  const lines = linesOf();
  const { grade, book, items } = workings;
  const reads = new Map(items.map((read) => [read.item.id, read]));
  const byLine = new Map(items.map((read) => [`labour:${read.item.id}`, read]));
  const groups = new Map(found.map((group) => [group.id, group.items]));
  const named = (id: string) => {
    const read = reads.get(id);
    return read ? [nameOf(read, workings)] : [];
  };
  return {
    condition: () => grade.is.name,
    sourcing: (id) => book.kinds.get(id)?.is.name ?? id,
    "if found": (id) => (groups.get(id) ?? []).flatMap(named).join("; "),
    labour: (id) => {
      const [read, line] = [byLine.get(id), lines.get(id)];
      return read ? nameOf(read, workings) : line ? placeName(line) : id;
    },
  };
}

function placeName({ id, assembly, from }: Line): string {
  const boards = from.find((source) => source.is === "boards");
  return assembly?.name ?? (boards ? `${boards.size} boards ${boards.mounting} × ${boards.count}` : id);
}
