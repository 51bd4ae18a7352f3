/** The terms beside the price: ceiling, deposit, what is owed if the owner declines, days to complete. */
import type { Minor, Policy, RateBook, TaxRules } from "../input.js";
import type { AgreementProfile } from "../law/profile.js";
import { timesOver } from "../money/rounding.js";
import { MILLI, percentOf, toMilli } from "../money/scales.js";
import type { PartsPrice } from "../parts/priceParts.js";
import { isFixed } from "../pricing/quote.js";
import type { Priced } from "../pricing/workings.js";
import type { Days, GroupPrice, IfDeclined, Line, Sheet, Source, Totals } from "../sheet.js";
import { addUp } from "../totals/addUp.js";

/** The amount above which the shop may not go without a new agreement, tax included. `allFound`: the total if all that may be found is; `room`: where the pricing sets the ceiling, or possible work wants it. */
export function ceilingOver(
  total: Minor,
  allFound: () => Minor,
  policy: Policy,
  rateBook: RateBook,
  profile: AgreementProfile,
  room?: Room,
): Sheet["ceiling"] {
  if (policy.ceiling !== undefined) return { amount: policy.ceiling, from: { is: "rule", rule: "ceiling set by owner" } };
  const priced =
    room && (room.is === "priced" || room.amount > shopsCeiling(total, rateBook))
      ? { amount: room.amount, net: room.net }
      : undefined;
  const shops = priced?.amount ?? shopsCeiling(total, rateBook);
  const allowed = stopsAbove(profile) ? Math.max(withTolerance(total, profile), allFound()) : shops;
  return allowed < shops
    ? { amount: allowed, from: { is: "rule", rule: "ceiling by agreement profile" } }
    : priced
      ? { ...priced, from: { is: "rule", rule: isFixed(policy) ? "price is fixed" : "ceiling for what may turn up" } }
      : { amount: shops, from: { is: "rule", rule: "ceiling above total" } };
}

/** The most that agreeing to it lets the job come to, tax included: the ceiling, or a total above the one the owner had set, which agreeing raises. */
export const neverMore = ({ totals, ceiling }: Pick<Sheet, "totals" | "ceiling">): Minor =>
  Math.max(totals.total, ceiling.amount);

/** The same in the amounts of lines, without tax where they are; tax is taken out in the proportion of the total, whatever would be added up to the ceiling. */
export function neverMoreInLines({ totals, ceiling }: Pick<Sheet, "totals" | "ceiling">): Minor {
  const most = neverMore({ totals, ceiling });
  const { pricesIncludeTax, total, withoutTax } = totals;
  return pricesIncludeTax || total === 0 ? most : timesOver(most, withoutTax, total);
}

/** The owner's own figure, which stays whatever is ticked. */
export const isOwners = (sheet: Pick<Sheet, "totals" | "ceiling">): boolean =>
  sheet.ceiling.from.is === "rule" && sheet.ceiling.from.rule === "ceiling set by owner" && !isAboveOwners(sheet);

/** Agreeing then raises what the owner had allowed, and the paper says so. */
export const isAboveOwners = ({ totals, ceiling }: Pick<Sheet, "totals" | "ceiling">): boolean => totals.total > ceiling.amount;

/** All that may be found, together, would come to more than that: it is asked about before, and whoever agrees is told so. */
export const couldPass = ({ warnings, ifFound }: Pick<Sheet, "warnings" | "ifFound">): boolean =>
  warnings.some(({ is }) => is === "possible work above ceiling") && !ifFound.every(({ covered }) => covered);

/** Tax included, and without. */
export interface Room {
  readonly is: "priced" | "for possible work";
  readonly amount: Minor;
  readonly net: Minor;
}

/** The total with the dearest possible work; undefined where the rate book does not ask for it, or nothing may be found. */
export function roomFor(ifFound: readonly GroupPrice[], { total, withoutTax }: Totals, { ceiling }: RateBook): Room | undefined {
  const [first, ...others] = ceiling.leavesRoom ? ifFound : [];
  if (!first) return undefined;
  const dearest = others.reduce((most, each) => (each.price > most.price ? each : most), first);
  return { is: "for possible work", amount: total + dearest.price, net: withoutTax + dearest.net };
}

/** Whether the profile bounds the bill by the estimated amount, so that the shop's own headroom does not count. */
export const stopsAbove = ({ toleranceOn, tolerancePercent }: AgreementProfile): boolean =>
  toleranceOn === "estimate" && tolerancePercent !== null;

/** Any amount in minor units, with tax or without. */
export const shopsCeiling = (amount: Minor, { ceiling }: RateBook): Minor => amount + percentOf(amount, ceiling.abovePercent);

/** Fractions are dropped: a tolerance is never passed by rounding. */
export const withTolerance = (amount: Minor, { tolerancePercent }: AgreementProfile): Minor =>
  amount + percentOf(amount, tolerancePercent ?? 0, "down");

/** What is paid before work starts: a share of the parts that are hard to get, margin included, and of labour; both with their tax. */
export function depositOn({ lines, parts, totals }: Priced, { deposit, tax }: RateBook): Sheet["deposit"] {
  const name = (part: { readonly type: string; readonly kind?: string }) => JSON.stringify([part.type, part.kind]);
  const hard = new Set(
    parts.results.filter(({ scarcity }) => scarcity === "scarce" || scarcity === "donor only").map((result) => name(result)),
  );
  const withTax = (wanted: (line: Line) => boolean) => addUp(lines.filter(wanted), [], tax, 0).total;
  const onParts = percentOf(
    withTax(
      ({ id, taxClass, part }) =>
        id === "allowance:sourcing" || (taxClass === "parts" && part !== undefined && hard.has(name(part))),
    ),
    deposit.scarcePartsPercent,
  );
  const onLabour = percentOf(
    withTax(({ taxClass }) => taxClass === "labour"),
    deposit.labourPercent,
  );
  const sources = (amount: number, entry: string, rule: "deposit on scarce parts" | "deposit on labour"): Source[] =>
    amount === 0
      ? []
      : [
          { is: "rate book", entry },
          { is: "rule", rule },
        ];
  return {
    // Tax rounded line by line can leave a total just below nothing when all is discounted.
    amount: Math.max(0, Math.min(onParts + onLabour, totals.total)),
    from: [
      ...sources(onParts, "/deposit/scarcePartsPercent", "deposit on scarce parts"),
      ...sources(onLabour, "/deposit/labourPercent", "deposit on labour"),
    ],
  };
}

/** What is owed if the owner declines after opening: diagnosis, and access with refit, at their exact minutes; never above the agreed limit. */
export function ifDeclined(access: readonly Line[], policy: Policy, { fees, tax }: RateBook): IfDeclined {
  const diagnosis = policy.diagnosis ? fees.diagnosis.amount : 0;
  const owed = addUp([...access, { amount: diagnosis, taxCategory: tax.fees }], [], tax, 0);
  const limit = policy.diagnosisLimit;
  const limited = limit !== undefined && owed.total > limit;
  return {
    amount: limited ? limit : owed.total,
    diagnosis,
    access: access.reduce((sum, { amount }) => sum + amount, 0),
    tax: owed.tax,
    ...(limit !== undefined && { limit }),
    limited,
  };
}

/** Diagnosis and access as the owner pays them, tax included; they sum to what is owed before a limit stops it. */
export function declinedWithTax({ diagnosis, access, tax }: IfDeclined, rules: TaxRules): { diagnosis: Minor; access: Minor } {
  const fee = addUp([{ amount: diagnosis, taxCategory: rules.fees }], [], rules, 0).total;
  return { diagnosis: fee, access: diagnosis + access + (rules.included ? 0 : tax) - fee };
}

/** What a day of storage comes to, tax included. */
export const storageADay = ({ fees, tax }: RateBook): Minor =>
  addUp([{ amount: fees.storagePerDay, taxCategory: tax.fees }], [], tax, 0).total;

const DAY = 24 * 60 * MILLI;

/** The bench queue, then the longest lead time, then the work itself at the shop's weekly capacity. Times in thousandths of a minute. Unattended time runs day and night. */
export function daysToComplete(
  { attended, unattended }: { readonly attended: number; readonly unattended: number },
  parts: PartsPrice,
  policy: Policy,
  { calendar }: RateBook,
): Days {
  const queue = policy.benchQueueDays ?? 0;
  const lead = parts.results.reduce((longest, { leadDays }) => Math.max(longest, leadDays), 0);
  const bench = Math.ceil((7 * attended) / toMilli(calendar.weeklyBenchMinutes)) + Math.ceil(unattended / DAY);
  return { total: queue + lead + bench, queue, lead, bench };
}
