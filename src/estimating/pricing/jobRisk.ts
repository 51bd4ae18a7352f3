/**
 * The risk of a priced job: its bench time, what its parts may come to, and what may be found. Everything else is certain. Amounts are
 * those of the lines (tax included where prices include it): time at the owner's rates, and a part's own cost below its mark-up.
 */

import type { Minor } from "../input.js";
import { type Group, groupsOf } from "../labour/groups.js";
import { isByTime } from "../labour/times.js";
import type { PartsPrice } from "../parts/priceParts.js";
import type { CompletionModel } from "../risk/completion.js";
import type { FoundRisk, LabourRisk, RiskModel } from "../risk/model.js";
import type { Line, PartResult } from "../sheet.js";
import { type Bare, boughtFor, netOf, sharesRisk, withoutMargins } from "./bare.js";
import { type Bought, isUsable, type KindPlan } from "./buyPlans.js";
import { chanceOf, possibleWork } from "./possible.js";
import { priceWith } from "./price.js";
import { addedLines, chargedBy, pricedOf, sourcingRisk, timedRisk, timesById, workLines, worthOf } from "./timedRisk.js";
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
  /** The same with all that may be found. */
  readonly withAll?: Minor;
  readonly found: readonly FoundGroup[];
  readonly completion: () => CompletionModel;
  /** Every timed line there is or may be, by id. */
  readonly lines: () => ReadonlyMap<string, Line>;
}

/** What may be found, beyond what is counted. */
interface Possible extends Pick<RiskModel, "shared" | "beyond"> {
  readonly found: readonly FoundRisk[];
  /** In the order of `found`. */
  readonly groups: readonly {
    readonly group: Group;
    readonly plans: readonly KindPlan[];
    readonly parts: PartsPrice;
    readonly timed: readonly LabourRisk[];
  }[];
  readonly timedShared?: readonly (readonly LabourRisk[])[];
  readonly lines: readonly Line[];
  /** What all of it adds. */
  readonly all?: Minor;
}

export function jobRisk(counted: Priced, bare: Bare, workings: Workings): JobRisk {
  const { input, rateBook, grade, items } = workings;
  const deterministic = netOf(bare.priced.totals);
  const timed = workLines(counted).map((line) => timedRisk(line, workings));
  const labour = timed.filter(({ underCondition }) => underCondition);
  const priced = new Set(counted.labour.filter((line) => !isByTime(line)).map(({ line }) => line.id));
  const flat = labour.filter(({ id }) => priced.has(id));
  const byTime = labour.filter(({ id }) => !priced.has(id));
  const sourcing = bare.plans.filter(isUsable).map(sourcingRisk);
  const here = new Set(counted.items);
  const groups = groupsOf(items, input.items, "if found").filter((group) => !here.has(group.items[0]!));
  const possible: Possible = sharesRisk(rateBook)
    ? { ...possibleWork(groups, bare, workings), lines: [] }
    : eachByItself(groups, counted, bare, workings);
  const { found, shared, beyond, timedShared, all } = possible;
  const model: RiskModel = {
    conditionCv: grade.is.spreadPercent / 100,
    ...chargedBy(rateBook),
    fixed:
      deterministic - worthOf(byTime, rateBook) - Math.min(flatPrices(counted), worthOf(flat, rateBook)) - pricedOf(sourcing),
    labour,
    sourcing,
    ifFound: found,
    ...(shared && { shared }),
    ...(beyond && { beyond }),
  };
  return {
    model,
    deterministic,
    ...(all !== undefined && { withAll: deterministic + all }),
    found: possible.groups.map(({ group, plans }) => ({ id: group.id, items: group.ids, plans })),
    completion: () => ({
      queueDays: input.policy?.benchQueueDays ?? 0,
      leadDays: leadOf(counted.parts, bare.plans),
      reorders: bare.plans
        .filter((each) => isUsable(each) && each.plan.probability < 1)
        .map(({ plan }) => ({ probability: 1 - plan.probability, days: plan.leadDays + plan.reorderDays })),
      foundLeadDays: Object.fromEntries(possible.groups.map(({ group, parts, plans }) => [group.id, leadOf(parts, plans)])),
      work: {
        conditionCv: model.conditionCv,
        labour: timed,
        ifFound: found.map((each, at) => ({ ...each, labour: possible.groups[at]!.timed })),
        ...(shared && { shared: shared.map((each, at) => ({ ...each, labour: timedShared![at]! })) }),
      },
      weeklyBenchMinutes: rateBook.calendar.weeklyBenchMinutes,
    }),
    lines: () => new Map([...workLines(counted).map(({ line }) => line), ...possible.lines].map((line) => [line.id, line])),
  };
}

/** As books had it: each group carries all it needs, as if it alone turned up. */
function eachByItself(groups: readonly Group[], counted: Priced, bare: Bare, workings: Workings): Possible {
  const deterministic = netOf(bare.priced.totals);
  const before: Before = { times: timesById(counted), results: new Set(counted.parts.results), bare, deterministic };
  const made = groups.map((group) => {
    const more = priceWith(counted, group.items, workings);
    return { group, more, parts: more.parts, ...foundIn(more, before, workings) };
  });
  return {
    found: made.map(({ group, risk }) => ({ ...risk, id: group.id, probability: chanceOf(group) })),
    groups: made,
    lines: made.flatMap(({ more }) => workLines(more).map(({ line }) => line)),
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

/** What a fixed price leaves above the worth of its time is certain; time worth more than the price is the shop's loss. */
const flatPrices = ({ labour }: Priced): Minor => labour.reduce((sum, { flat, line }) => sum + (flat ? line.amount : 0), 0);

/** Longest lead time; a plan's where there is one. */
function leadOf(parts: PartsPrice, plans: readonly KindPlan[]): number {
  const planned = new Map(plans.filter(isUsable).map(({ bought, plan }) => [bought.kind.id, plan.leadDays]));
  return Math.max(0, ...planned.values(), ...parts.results.map(({ kind = "", leadDays }) => (planned.has(kind) ? 0 : leadDays)));
}
