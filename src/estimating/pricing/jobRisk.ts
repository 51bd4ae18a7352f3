/**
 * The risk of a priced job: its bench time, what its parts may come to, and what may be found. Everything else is certain. Amounts are
 * those of the lines (tax included where prices include it): time at the owner's rates, and a part's own cost below its mark-up.
 */

import type { Minor, RateBook } from "../input.js";
import { groupsOf } from "../labour/groups.js";
import { isByTime } from "../labour/times.js";
import type { CompletionModel } from "../risk/completion.js";
import { type FoundRisk, type LabourRisk, pricedMinutes, type RiskModel, type SourcingRisk, worth } from "../risk/model.js";
import type { Line, PartResult } from "../sheet.js";
import { type Bare, boughtFor, netOf, withoutMargins } from "./bare.js";
import { type Bought, isUsable, type KindPlan } from "./buyPlans.js";
import { priceWith } from "./price.js";
import { addedLines, timedRisk, timesById, workLines } from "./timedRisk.js";
import type { Priced, Workings } from "./workings.js";

interface FoundGroup {
  readonly id: string;
  readonly items: readonly string[];
  readonly plans: readonly KindPlan[];
}

export interface JobRisk {
  readonly model: RiskModel;
  /** The bare price. */
  readonly deterministic: Minor;
  readonly found: readonly FoundGroup[];
  readonly completion: CompletionModel;
  /** Every timed line there is or may be, by id. */
  readonly lines: ReadonlyMap<string, Line>;
}

export function jobRisk(counted: Priced, bare: Bare, workings: Workings): JobRisk {
  const { input, rateBook, grade, items } = workings;
  const deterministic = netOf(bare.priced.totals);
  const timed = workLines(counted).map((line) => timedRisk(line, workings));
  const labour = timed.filter(({ underCondition }) => underCondition);
  const priced = new Set(counted.labour.filter((line) => !isByTime(line)).map(({ line }) => line.id));
  const [flat, byTime] = [labour.filter(({ id }) => priced.has(id)), labour.filter(({ id }) => !priced.has(id))];
  const sourcing = bare.plans.filter(isUsable).map(sourcingRisk);
  const before: Before = { times: timesById(counted), results: new Set(counted.parts.results), bare, deterministic };
  const groups = groupsOf(items, input.items, "if found").map((group) => {
    const more = priceWith(counted, group.items, workings);
    return { group, more, ...foundIn(more, before, workings) };
  });
  const found = groups.map(({ group, risk }): FoundRisk => {
    const certainty = group.items[0]!.item.certainty;
    return { ...risk, id: group.id, probability: certainty.is === "if found" ? certainty.probability : 0 };
  });
  const model: RiskModel = {
    conditionCv: grade.is.spreadPercent / 100,
    ...chargedBy(rateBook),
    fixed:
      deterministic - worthOf(byTime, rateBook) - Math.min(flatPrices(counted), worthOf(flat, rateBook)) - pricedOf(sourcing),
    labour,
    sourcing,
    ifFound: found,
  };
  return {
    model,
    deterministic,
    found: groups.map(({ group, plans }) => ({ id: group.id, items: group.ids, plans })),
    completion: {
      queueDays: input.policy?.benchQueueDays ?? 0,
      leadDays: leadOf(counted, bare.plans),
      reorders: bare.plans
        .filter((each) => isUsable(each) && each.plan.probability < 1)
        .map(({ plan }) => ({ probability: 1 - plan.probability, days: plan.leadDays + plan.reorderDays })),
      foundLeadDays: Object.fromEntries(groups.map(({ group, more, plans }) => [group.id, leadOf(more, plans)])),
      work: {
        conditionCv: model.conditionCv,
        labour: timed,
        ifFound: found.map((each, at) => ({ ...each, labour: groups[at]!.timed })),
      },
      weeklyBenchMinutes: rateBook.calendar.weeklyBenchMinutes,
    },
    lines: new Map([counted, ...groups.map(({ more }) => more)].flatMap(workLines).map(({ line }) => [line.id, line])),
  };
}

/** The job that a group is added to. */
interface Before {
  readonly times: ReturnType<typeof timesById>;
  readonly results: ReadonlySet<PartResult>;
  readonly bare: Bare;
  readonly deterministic: Minor;
}

/** What a group adds. Whatever its work and its buy plans do not explain, such as mark-up, freight and billing steps, is certain once it is found. */
function foundIn(more: Priced, { times, results, bare, deterministic }: Before, workings: Workings) {
  const timed = addedLines(times, more).map((line) => timedRisk(line, workings));
  const labour = timed.filter(({ underCondition }) => underCondition);
  const extra = [...boughtFor(more, workings, results).values()].flatMap((now): Bought[] => {
    const before = bare.bought.get(now.kind.id);
    const pieces = now.pieces - (before?.pieces ?? 0);
    return pieces > 0 ? [{ ...now, pieces, cost: Math.max(0, now.cost - (before?.cost ?? 0)) }] : [];
  });
  const paid = new Map(bare.purse.paid);
  for (const { reason = "", amount } of more.parts.freight) paid.set(reason, Math.max(paid.get(reason) ?? 0, amount));
  const plans = workings.planner(extra, { paid, taken: new Map(bare.purse.taken) });
  const sourcing = plans.filter(isUsable).map(sourcingRisk);
  const adds = netOf(withoutMargins(more, [...bare.plans, ...plans], workings).totals) - deterministic;
  const parts = Math.max(0, adds - worthOf(labour, workings.rateBook) - pricedOf(sourcing));
  return { risk: { labour, parts, sourcing }, timed, plans };
}

const sourcingRisk = ({ bought, plan }: KindPlan): SourcingRisk => ({
  id: bought.kind.id,
  priced: bought.cost,
  outcomes: plan.outcomes,
});

/** What a fixed price leaves above the worth of its time is certain; time worth more than the price is the shop's loss. */
const flatPrices = ({ labour }: Priced): Minor => labour.reduce((sum, { flat, line }) => sum + (flat ? line.amount : 0), 0);

const chargedBy = ({ billing }: RateBook): Pick<RiskModel, "charged"> =>
  billing.minutes === "expected" ? { charged: "expected" } : {};

/** What is charged for its time. */
const worthOf = (labour: readonly LabourRisk[], rateBook: RateBook): number =>
  labour.reduce((sum, { time, ratePerHour }) => sum + worth(pricedMinutes(time, chargedBy(rateBook)), ratePerHour), 0);

const pricedOf = (sourcing: readonly SourcingRisk[]): Minor => sourcing.reduce((sum, { priced }) => sum + priced, 0);

/** Longest lead time; a plan's where there is one. */
function leadOf({ parts }: Priced, plans: readonly KindPlan[]): number {
  const planned = new Map(plans.filter(isUsable).map(({ bought, plan }) => [bought.kind.id, plan.leadDays]));
  return Math.max(0, ...planned.values(), ...parts.results.map(({ kind = "", leadDays }) => (planned.has(kind) ? 0 : leadDays)));
}
