/**
 * The documented rules over again, by other means: decimal.js instead of whole thousandths and minor units, plain loops
 * instead of the engine's parts. It shares no arithmetic with the engine; only the shape of the input.
 */
import { Decimal } from "decimal.js";
import type { Assembly, EstimateInput, Offer, Policy, RateBook, ThreePoint, WorkItem } from "../../../src/estimating/input.js";

const D = Decimal.clone({ precision: 60 });
type Amount = InstanceType<typeof D>;
const ZERO = new D(0);
const add = (all: readonly Amount[]): Amount => all.reduce((sum, each) => sum.plus(each), ZERO);
const MODES = { "half up": D.ROUND_HALF_UP, "half down": D.ROUND_HALF_DOWN, down: D.ROUND_DOWN } as const;
const whole = (value: Amount): Amount => value.toDecimalPlaces(0, D.ROUND_HALF_UP);
const percentOf = (amount: Amount, percent: number): Amount => whole(amount.times(percent).div(100));

interface Entry {
  readonly id: string;
  readonly amount: Amount;
  readonly category: string;
  readonly class: "labour" | "parts" | "margin" | "fees";
  readonly minutes?: Amount;
}

export interface Reckoned {
  readonly lines: Record<string, number>;
  readonly adjustments: Record<string, number>;
  readonly groups: Record<string, readonly [base: number, tax: number]>;
  readonly figures: Record<string, number>;
}

interface Visit {
  readonly boards: NonNullable<EstimateInput["boards"]>;
  readonly toOpen: readonly string[];
  readonly open: readonly string[];
  readonly policy: Policy;
}

/** What must be off for these: again and again until nothing is added. */
function off(assemblies: readonly Assembly[], starts: readonly string[]): Set<string> {
  const result = new Set(starts);
  for (let before = -1; before !== result.size; ) {
    before = result.size;
    for (const { id, behind = [], joined = [] } of assemblies) {
      if (result.has(id)) for (const other of [...behind, ...joined]) result.add(other);
      if (joined.some((other) => result.has(other))) result.add(id);
    }
  }
  return result;
}

function visitPrice(input: EstimateInput, items: readonly WorkItem[], { boards, toOpen, open, policy }: Visit) {
  const { rateBook: book } = input;
  const assemblies = input.map?.assemblies ?? [];
  const grade = new D(book.grades.find(({ id }) => id === input.unit.grade)!.labourPercent).div(100);
  const classOf = (id: string) => book.labourClasses.find((each) => each.id === id)!;
  const thousandth = (minutes: Amount, attended: boolean) =>
    attended ? minutes.times(grade).toDecimalPlaces(3, D.ROUND_HALF_UP) : minutes;
  // PERT, Malcolm and others 1959: the mean of shortest, four times likely and longest; or the likely time alone.
  const charged = (minutesAt: (end: keyof ThreePoint) => Amount): Amount => {
    const likely = minutesAt("likely");
    const mean = add([minutesAt("low"), likely.times(4), minutesAt("high")])
      .div(6)
      .toDecimalPlaces(3, D.ROUND_HALF_UP);
    taken = likely;
    return book.billing.minutes === "expected" ? mean : likely;
  };
  /** The likely minutes of what was charged last, which the days to complete go by. */
  let taken = ZERO;
  const priced = (minutes: Amount, labourClass: string) => whole(minutes.times(classOf(labourClass).ratePerHour).div(60));
  const labour: (Entry & { minutes: Amount; likely: Amount; labourClass: string })[] = [];
  const charge = (id: string, minutes: Amount, amount: Amount, labourClass: string, likely = minutes) =>
    labour.push({ id, minutes, likely, amount, labourClass, category: book.tax.labour, class: "labour" });

  // Access: each opened assembly once; counted boards one by one.
  const accessClass = classOf(book.accessClass);
  const standard = (size: string, mounting: string) =>
    book.accessStandards.find((each) => each.size === size && each.mounting === mounting)!;
  const bothWays = (remove: Amount, refit: Amount) =>
    thousandth(remove, accessClass.attended).plus(thousandth(refit, accessClass.attended));
  const alreadyOff = off(assemblies, open);
  for (const { id, access } of assemblies) {
    if (!off(assemblies, [...toOpen, ...items.flatMap(({ assembly = [] }) => assembly)]).has(id) || alreadyOff.has(id)) continue;
    const each = (way: "remove" | "refit", end: keyof ThreePoint): Amount =>
      access.by === "measured"
        ? new D(access[way][end])
        : access.by === "standard"
          ? new D(standard(access.size, access.mounting)[way][end])
          : add(
              access.fasteners.map(({ kind, count }) =>
                new D(book.fasteners.find((fastener) => fastener.kind === kind)![way][end]).times(count),
              ),
            );
    const minutes = charged((end) => bothWays(each("remove", end), each("refit", end)));
    charge(`access:${id}`, minutes, priced(minutes, accessClass.id), accessClass.id, taken);
  }
  boards.forEach(({ size, mounting, count }, at) => {
    if (count === 0) return;
    const { remove, refit } = standard(size, mounting);
    const minutes = charged((end) => bothWays(new D(remove[end]), new D(refit[end])));
    charge(
      `access:boards:${at}`,
      minutes.times(count),
      priced(minutes, accessClass.id).times(count),
      accessClass.id,
      taken.times(count),
    );
  });
  const access = [...labour];

  // Labour: one set-up per place and operation, on the item whose id sorts first.
  const setups = (item: WorkItem): number => {
    const shared = items.filter(({ assembly, operation }) => assembly === item.assembly && operation === item.operation);
    if (shared.some(({ id }) => id < item.id)) return 0;
    if (item.assembly !== undefined) return 1;
    if (book.billing.setUps === "replacements" && book.operations.find(({ id }) => id === item.operation)!.sort !== "replacement")
      return 1;
    const counted = boards.reduce((sum, { count }) => sum + count, 0) + new Set(toOpen).size;
    return Math.min(
      shared.reduce((sum, { count }) => sum + count, 0),
      Math.max(1, counted),
    );
  };
  const kindOf = (item: WorkItem) =>
    item.part && "kind" in item.part ? input.kinds!.find(({ id }) => id === (item.part as { kind: string }).kind) : undefined;
  const typeOf = (item: WorkItem) => {
    const id = kindOf(item)?.type ?? (item.part as { type: string }).type;
    return book.partTypes.find((each) => each.id === id)!;
  };
  for (const item of items) {
    const operation = book.operations.find(({ id }) => id === item.operation)!;
    const unitAt = (end: keyof ThreePoint): Amount => {
      const unit = new D((item.minutes ?? operation.unit)[end]);
      if (item.minutes || operation.sort !== "replacement") return unit;
      const type = typeOf(item);
      const { desolder, clear, fit, solder, inspect } = book.leads;
      const perLead = add([desolder, clear, fit, solder, inspect].map((time: ThreePoint) => new D(time[end])));
      return unit.plus(type.leads === undefined ? type.minutes![end] : perLead.times(kindOf(item)?.leads ?? type.leads));
    };
    const minutes = charged((end) => {
      const bare = new D(operation.setup[end]).times(setups(item)).plus(unitAt(end).times(item.count));
      return thousandth(bare, classOf(operation.labourClass).attended);
    });
    charge(`labour:${item.id}`, minutes, priced(minutes, operation.labourClass), operation.labourClass, taken);
  }

  const attended = add(labour.filter((each) => classOf(each.labourClass).attended).map(({ likely }) => likely));
  const unattended = add(labour.filter((each) => !classOf(each.labourClass).attended).map(({ likely }) => likely));
  const step = book.billing.incrementMinutes;
  if (step > 0)
    for (const { id, attended: counts } of book.labourClasses) {
      const total = add(labour.filter(({ labourClass }) => labourClass === id).map(({ minutes }) => minutes));
      const missing = total.div(step).ceil().times(step).minus(total);
      if (counts && !missing.isZero()) charge(`rounding:${id}`, missing, priced(missing, id), id);
    }
  const lacking = new D(book.billing.minimumCharge).minus(add(labour.map(({ amount }) => amount)));
  if (labour.length > 0 && lacking.greaterThan(0)) charge("minimum", ZERO, lacking, accessClass.id);

  const { lines: parts, freight, scarce, lead } = partsOf(items, kindOf, typeOf, input);
  const fee = (id: string, amount: number): Entry[] =>
    amount === 0 ? [] : [{ id: `fee:${id}`, amount: new D(amount), category: book.tax.fees, class: "fees" }];
  const diagnosis = policy.diagnosis ? book.fees.diagnosis.amount : 0;
  const lines: Entry[] = [
    ...labour,
    ...parts,
    ...fee("diagnosis", diagnosis),
    ...fee("diagnosis credited", book.fees.diagnosis.creditedOnAgreement ? -diagnosis : 0),
    ...fee("storage", (policy.storageDays ?? 0) * book.fees.storagePerDay),
  ];

  // Allowances and charges.
  const sumOf = (...classes: Entry["class"][]) =>
    add(lines.filter((each) => classes.includes(each.class)).map(({ amount }) => amount));
  const linesNet = add(lines.map(({ amount }) => amount));
  const { discount } = policy;
  const asked = !discount ? ZERO : "percent" in discount ? percentOf(linesNet, discount.percent) : new D(discount.amount);
  const discounts = spread(D.min(asked, linesNet), lines);
  const { percentOfParts, percentOfLabour, cap } = book.parts.sundries;
  const full = whole(sumOf("parts").times(percentOfParts).plus(sumOf("labour").times(percentOfLabour)).div(100));
  const charges: [id: string, amount: Amount, category: string][] = [
    ["sundries", cap === undefined ? full : D.min(full, cap), book.tax.parts],
    ...[...freight].map(([source, amount]) => [`freight:${source}`, new D(amount), book.tax.freight] as [string, Amount, string]),
    ["rush", policy.rush ? percentOf(sumOf("labour"), book.fees.rushPercent) : ZERO, book.tax.labour],
  ];
  const paidCharges = charges.filter(([id, amount]) => id.startsWith("freight:") || amount.greaterThan(0));

  const { groups, total, withoutTax } = totalOf(
    [
      ...lines.map(({ amount, category }) => [category, amount] as const),
      ...discounts.map(([category, amount]) => [category, amount.neg()] as const),
      ...paidCharges.map(([, amount, category]) => [category, amount] as const),
    ],
    book,
  );
  return {
    lines,
    labour,
    access,
    discounts,
    paidCharges,
    groups,
    total,
    withoutTax,
    attended,
    unattended,
    scarce,
    lead,
    diagnosis,
    sumOf,
  };
}

type PartItem = (item: WorkItem) => { readonly id: string } | undefined;

/** Decimals of the currencies that are drawn: ISO 4217. */
const DECIMALS: Readonly<Record<string, number>> = { EUR: 2, USD: 2, JPY: 0, BHD: 3 };

/** Price of a pack and freight as they come to here: at the rate, then duty on that, then import tax on both; the parcel's fee with the freight. */
function landed(offer: Offer, { currency, exchange = [] }: EstimateInput): Offer {
  const rate = new D(exchange.find((each) => each.currency === offer.currency)?.rate ?? 1);
  const here = (amount: number) =>
    whole(new D(amount).div(new D(10).pow(DECIMALS[offer.currency]!)).times(rate).times(new D(10).pow(DECIMALS[currency]!)));
  const price = here(offer.price);
  const withDuty = price.plus(percentOf(price, offer.dutyPercent ?? 0));
  return {
    ...offer,
    price: withDuty.plus(percentOf(withDuty, offer.importTaxPercent ?? 0)).toNumber(),
    freight: here(offer.freight ?? 0)
      .plus(offer.parcelFee ?? 0)
      .toNumber(),
  };
}

/** Shelf first, the rest from the one offer; mark-up by unit cost; scarcity margin on cost; freight once per source. */
function partsOf(items: readonly WorkItem[], kindOf: PartItem, typeOf: PartItem, input: EstimateInput) {
  const { rateBook: book } = input;
  const lines: Entry[] = [];
  const freight = new Map<string, number>();
  const scarce = new Set<string>();
  let lead = 0;
  const sell = (id: string, charged: number, price: number, per: number): Amount => {
    const unitCost = new D(price).div(per);
    const band = book.parts.markUp.find(({ upTo }) => upTo === undefined || unitCost.lessThanOrEqualTo(upTo))!;
    const unitPrice = unitCost.times(new D(band.percent).div(100).plus(1)).toDecimalPlaces(4, D.ROUND_HALF_UP);
    const twice = lines.some((line) => line.id === id);
    lines.push({ id: twice ? `${id}/2` : id, amount: whole(unitPrice.times(charged)), category: book.tax.parts, class: "parts" });
    return whole(unitCost.times(charged));
  };
  const needed = (wanted: (item: WorkItem) => boolean) =>
    items.filter((item) => item.part && wanted(item)).reduce((sum, { count }) => sum + count, 0);
  for (const type of book.partTypes) {
    const loose = needed((item) => !kindOf(item) && typeOf(item)!.id === type.id);
    if (loose > 0) {
      const margin = percentOf(sell(`part:${type.id}`, loose, type.typicalCost, 1), book.scarcity.marginPercent["in stock"]);
      if (!margin.isZero()) lines.push({ id: `scarcity:${type.id}`, amount: margin, category: book.tax.parts, class: "margin" });
    }
    for (const kind of (input.kinds ?? []).filter((each) => each.type === type.id)) {
      const pieces = needed((item) => kindOf(item)?.id === kind.id);
      if (pieces === 0) continue;
      const offer = landed(input.offers!.find((each) => each.kind === kind.id)!, input);
      const shelf = Math.min(pieces, kind.stock ?? 0);
      const scarcity = kind.scarcity ?? (shelf === pieces ? "in stock" : "to order");
      const hard = scarcity === "scarce" || scarcity === "donor only";
      let cost = ZERO;
      if (shelf > 0) cost = cost.plus(sell(`part:${kind.id}`, shelf, offer.price, offer.packSize));
      const bought = pieces - shelf;
      if (bought > 0) {
        const packs = Math.max(Math.ceil(bought / offer.packSize), offer.minimumPacks ?? 1);
        const charged = hard || book.parts.packs === "whole" ? packs * offer.packSize : bought;
        cost = cost.plus(sell(`part:${kind.id}`, charged, offer.price, offer.packSize));
        lead = Math.max(lead, offer.leadDays);
        const freightNow = Math.max(freight.get(offer.source) ?? 0, offer.freight ?? 0);
        if (freightNow > 0) freight.set(offer.source, freightNow);
      }
      const margin = percentOf(cost, book.scarcity.marginPercent[scarcity]);
      if (!margin.isZero()) lines.push({ id: `scarcity:${kind.id}`, amount: margin, category: book.tax.parts, class: "margin" });
      if (hard) for (const id of [`part:${kind.id}`, `part:${kind.id}/2`, `scarcity:${kind.id}`]) scarce.add(id);
    }
  }
  return { lines, freight, scarce, lead };
}

/** Whole units of the amount in proportion; those left over to the largest fractions, earlier categories first. */
function spread(amount: Amount, lines: readonly Entry[]): [category: string, amount: Amount][] {
  if (!amount.greaterThan(0)) return [];
  const sums = new Map<string, Amount>();
  for (const line of lines) sums.set(line.category, (sums.get(line.category) ?? ZERO).plus(line.amount));
  const positive = [...sums].map(([category, sum]) => [category, D.max(sum, 0)] as const);
  const all = add(positive.map(([, sum]) => sum));
  const shares = positive.map(([category, sum], at) => {
    const exact = amount.times(sum).div(all);
    return { category, at, floor: exact.floor(), rest: exact.minus(exact.floor()).toDecimalPlaces(40) };
  });
  const left = amount.minus(add(shares.map(({ floor }) => floor))).toNumber();
  const lucky = [...shares].sort((a, b) => b.rest.comparedTo(a.rest) || a.at - b.at).slice(0, left);
  return shares
    .map((share) => [share.category, share.floor.plus(lucky.includes(share) ? 1 : 0)] as [string, Amount])
    .filter(([, part]) => !part.isZero());
}

function totalOf(amounts: readonly (readonly [category: string, amount: Amount])[], { tax }: RateBook) {
  const { level, mode, extraDigits = 0 } = tax.rounding;
  const used = tax.categories.filter(({ id }) => amounts.some(([category]) => category === id));
  const taxOn = (amount: Amount, percent: number) => amount.times(percent).div(tax.included ? new D(100).plus(percent) : 100);
  const of = (id: string) => amounts.filter(([category]) => category === id).map(([, amount]) => amount);
  const exact = used.map(({ id, percent }) =>
    level === "line"
      ? add(of(id).map((amount) => taxOn(amount, percent).toDecimalPlaces(extraDigits, MODES[mode])))
      : level === "group"
        ? taxOn(add(of(id)), percent).toDecimalPlaces(0, MODES[mode])
        : taxOn(add(of(id)), percent),
  );
  const taxTotal = add(exact).toDecimalPlaces(0, MODES[mode]);
  const cut = exact.map((share) => share.trunc());
  const missing = taxTotal.minus(add(cut)).toNumber();
  const sign = Math.sign(missing);
  const lucky = exact
    // Thirds and sevenths never end: fractions that agree to forty places are the same.
    .map((share, at) => ({ at, size: share.minus(cut[at]!).times(sign).toDecimalPlaces(40) }))
    .sort((a, b) => b.size.comparedTo(a.size) || a.at - b.at)
    .slice(0, Math.abs(missing))
    .map(({ at }) => at);
  const printed = cut.map((share, at) => (lucky.includes(at) ? share.plus(sign) : share));
  const sum = add(amounts.map(([, amount]) => amount));
  const groups = used.map(({ id }, at) => ({
    id,
    base: add(of(id)).minus(tax.included ? printed[at]! : 0),
    tax: printed[at]!,
  }));
  return { groups, total: tax.included ? sum : sum.plus(taxTotal), withoutTax: tax.included ? sum.minus(taxTotal) : sum };
}

export function reckon(input: EstimateInput): Reckoned {
  const { rateBook: book, policy = {} } = input;
  const now: Visit = { boards: input.boards ?? [], toOpen: input.toOpen ?? [], open: input.alreadyOpen ?? [], policy };
  const work = input.items.filter(({ count }) => count > 0);
  const charged = work.filter(({ certainty }) => certainty.is === "planned" || (certainty.is === "optional" && certainty.chosen));
  const base = visitPrice(input, charged, now);
  const totalWith = (items: readonly WorkItem[]) => visitPrice(input, items, now).total;
  const withTax = (entries: readonly Entry[]) =>
    totalOf(
      entries.map(({ category, amount }) => [category, amount] as const),
      book,
    ).total;
  // decimal.js knows a negative zero.
  const n = (amount: Amount) => amount.toNumber() + 0;
  const figures: Record<string, number> = {
    total: n(base.total),
    withoutTax: n(base.withoutTax),
    due: n(base.total.minus(policy.prepaid ?? 0)),
    attended: n(base.attended),
    unattended: n(base.unattended),
    ceiling: policy.ceiling ?? n(base.total.plus(percentOf(base.total, book.ceiling.abovePercent))),
  };

  const owed = withTax([...base.access, { id: "", amount: new D(base.diagnosis), category: book.tax.fees, class: "fees" }]);
  figures.ifDeclined = n(policy.diagnosisLimit === undefined ? owed : D.min(owed, policy.diagnosisLimit));
  const hard = base.lines.filter(({ id }) => base.scarce.has(id));
  const deposit = percentOf(withTax(hard), book.deposit.scarcePartsPercent).plus(
    percentOf(withTax(base.labour), book.deposit.labourPercent),
  );
  figures.deposit = n(D.max(0, D.min(deposit, base.total)));
  const bench = base.attended.times(7).div(book.calendar.weeklyBenchMinutes).ceil().plus(base.unattended.div(1440).ceil());
  figures.days = (policy.benchQueueDays ?? 0) + base.lead + n(bench);

  const groups = new Map<string, WorkItem[]>();
  for (const item of work) {
    const { certainty } = item;
    if (certainty.is === "planned") continue;
    const key = `${certainty.is} ${certainty.group ?? item.id}`;
    groups.set(key, [...(groups.get(key) ?? []), item]);
  }
  for (const [key, items] of groups) {
    const within = charged.includes(items[0]!);
    figures[key] = within
      ? n(base.total.minus(totalWith(charged.filter((item) => !items.includes(item)))))
      : n(totalWith([...charged, ...items]).minus(base.total));
  }
  const opened = off(input.map?.assemblies ?? [], [
    ...now.toOpen,
    ...now.open,
    ...charged.flatMap(({ assembly = [] }) => assembly),
  ]);
  for (const { id, worthDoing = [] } of input.map?.assemblies ?? []) {
    const [thought] = worthDoing;
    if (!thought || !opened.has(id) || work.some((item) => item.assembly === id && item.operation === thought.operation))
      continue;
    // '~' sorts after every letter: the set-up stays with the items that are there.
    const item: WorkItem = {
      id: "~",
      assembly: id,
      operation: thought.operation,
      count: thought.count,
      certainty: { is: "planned" },
    };
    figures[`${id} now`] = n(totalWith([...charged, item]).minus(base.total));
    figures[`${id} later`] = n(visitPrice(input, [item], { boards: [], toOpen: [], open: [], policy: {} }).total);
  }

  const discountIds = base.discounts.length === 1 ? ["discount"] : base.discounts.map(([category]) => `discount:${category}`);
  return {
    lines: Object.fromEntries(base.lines.map(({ id, amount }) => [id, n(amount)])),
    adjustments: Object.fromEntries([
      ...base.discounts.map(([, amount], at) => [discountIds[at], -n(amount)]),
      ...base.paidCharges.map(([id, amount]) => [id, n(amount)]),
    ]),
    groups: Object.fromEntries(base.groups.map(({ id, base: net, tax }) => [id, [n(net), n(tax)] as const])),
    figures,
  };
}
