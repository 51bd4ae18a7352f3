/**
 * What may be found, taken apart: what each group brings by itself, and what it needs that is paid once with others (places, set-ups, freight). Steps, least
 * charge and caps depend on what turns up together: weighed for every set while groups are few, on average beyond.
 */
import type { Group } from "../labour/groups.js";
import { boardsSetUp, labourLine } from "../labour/labourLine.js";
import type { ReadItem } from "../labour/readItem.js";
import { chargedMilli, graded, isByTime, type LabourLine, times } from "../labour/times.js";
import { fromMilli, priceMilli } from "../money/scales.js";
import { pullLine } from "../parts/partLines.js";
import type { PartsPrice } from "../parts/priceParts.js";
import { needsOf, type PartNeed } from "../parts/supply.js";
import type { FoundRisk, LabourRisk, SharedRisk } from "../risk/model.js";
import { closure } from "../teardown/map.js";
import { type Bare, extraBought } from "./bare.js";
import { type Bought, isUsable, type KindPlan } from "./buyPlans.js";
import { added, addLabour, addTo, FREIGHT, LABOUR, netOfSums, noSums, OTHERS, PARTS, type Sums, sumsOf } from "./sums.js";
import { pricedOf, sourcingRisk, timedRisk, worthOf } from "./timedRisk.js";
import type { Priced, Workings } from "./workings.js";

/** Of so many groups every set is weighed; of fewer the more options there are, since each has a price of its own. */
const mostInSets = (options: number): number => Math.max(0, 9 - Math.ceil(Math.log2(1 + options))) * Number(options < 32);
/** So many sets stand for all of more groups. */
const SAMPLE = 96;

interface Piece {
  readonly sums: Sums;
  /** All of its time, at the bench and beside it. */
  readonly timed: readonly LabourRisk[];
  /** What its bench time and its buy plans are charged at. */
  readonly explained: number;
}

interface OwnPiece extends Piece {
  readonly group: Group;
  readonly plans: readonly KindPlan[];
  readonly parts: PartsPrice;
  /** Ids of what is paid once. */
  readonly needs: readonly string[];
}

export interface PossibleWork {
  readonly found: readonly FoundRisk[];
  readonly shared: readonly SharedRisk[];
  readonly beyond?: readonly number[];
  readonly groups: readonly OwnPiece[];
  /** Time of each of `shared`. */
  readonly timedShared: readonly (readonly LabourRisk[])[];
  /** What all of it adds as it is charged. */
  readonly all: number;
}

const atBench = (timed: readonly LabourRisk[]): LabourRisk[] => timed.filter(({ underCondition }) => underCondition);

/** `bare`: the price that the groups are added to. */
export function possibleWork(groups: readonly Group[], bare: Bare, workings: Workings): PossibleWork {
  const { rateBook } = workings;
  const { policy } = bare.priced.visit;
  const { own, shared } = taken(groups, bare, workings);
  const base = sumsOf(bare.priced, workings);
  const [now, smoothNow] = [netOfSums(base, policy, rateBook), netOfSums(base, policy, rateBook, true)];
  const smooth = ({ sums, explained }: Piece) => netOfSums(added(base, sums), policy, rateBook, true) - smoothNow - explained;
  const amounts = own.map(smooth);
  const once = [...shared].map(([id, piece]) => ({ id, piece, amount: smooth(piece) }));
  const onceAt = new Map(once.map(({ id }, at) => [id, at]));
  const needed = own.map(({ needs }) => needs.map((id) => onceAt.get(id)!));
  /** What a set is charged, and what of that its pieces do not say. */
  const chargedFor = (has: readonly boolean[]) => {
    const sums = base.slice();
    let reckoned = 0;
    const paid = new Uint8Array(once.length);
    const take = (piece: Piece, amount: number) => {
      addTo(sums, piece.sums);
      reckoned += piece.explained + amount;
    };
    own.forEach((piece, at) => {
      if (!has[at]) return;
      take(piece, amounts[at]!);
      for (const unit of needed[at]!) {
        if (paid[unit] === 0) take(once[unit]!.piece, once[unit]!.amount);
        paid[unit] = 1;
      }
    });
    const charged = netOfSums(sums, policy, rateBook) - now;
    return { charged, beyond: charged - reckoned };
  };
  const all = chargedFor(own.map(() => true)).charged;
  const { beyond, mean } = isStepped(base, policy, workings)
    ? byChance(own, mostInSets(workings.options), (has) => chargedFor(has).beyond)
    : { mean: 0 };
  const together: readonly SharedRisk[] = Math.abs(mean) > 1 ? [{ id: "together", labour: [], amount: mean }] : [];
  return {
    found: own.map(({ group, timed, plans, needs }, at) => ({
      id: group.id,
      probability: chanceOf(group),
      labour: atBench(timed),
      parts: amounts[at]!,
      sourcing: plans.filter(isUsable).map(sourcingRisk),
      needs: [...needs, ...together.map(({ id }) => id)],
    })),
    shared: [...once.map(({ id, piece, amount }) => ({ id, labour: atBench(piece.timed), amount })), ...together],
    ...(beyond && { beyond }),
    groups: own,
    timedShared: [...once.map(({ piece }) => piece.timed), ...together.map(() => [])],
    all,
  };
}

export const chanceOf = ({ items }: Group): number => {
  const certainty = items[0]!.item.certainty;
  return certainty.is === "if found" ? certainty.probability : 0;
};

/** Whether sets of work may cost other than the sum of their parts. */
const isStepped = (base: Sums, { discount }: Priced["visit"]["policy"], { rateBook: { billing, parts } }: Workings): boolean =>
  billing.incrementMinutes > 0 ||
  base[LABOUR]! < billing.minimumCharge ||
  parts.sundries.cap !== undefined ||
  (discount !== undefined && "amount" in discount);

/** For every set, as bits; or its mean, once anything is found. */
function byChance(own: readonly OwnPiece[], most: number, beyondOf: (has: readonly boolean[]) => number) {
  if (own.length > most) {
    const sets = sampleOf(own.map(({ group }) => chanceOf(group)));
    return { mean: sets.reduce((sum, has) => sum + beyondOf(has), 0) / Math.max(1, sets.length) };
  }
  const beyond = Array.from({ length: 2 ** own.length }, (_, set) => beyondOf(own.map((__, at) => ((set >> at) & 1) === 1)));
  // Percentages are rounded on every set: a unit or two are no step.
  return beyond.some((amount) => Math.abs(amount) > 2 + own.length) ? { beyond, mean: 0 } : { mean: 0 };
}

/** Sets with something in them, each group as often as its chance says. */
const sampleOf = (chances: readonly number[]): boolean[][] =>
  Array.from({ length: SAMPLE }, (_, set) =>
    chances.map((chance, at) => ((set + 1) * Math.sqrt(at * at + 3 * at + 3)) % 1 < chance),
  ).filter((has) => has.includes(true));

/** What each group brings by itself, and by id what is paid once. */
function taken(groups: readonly Group[], bare: Bare, workings: Workings) {
  const base = bare.priced;
  const shared = new Map<string, Piece>();
  const need = (id: string, make: () => Piece): string => {
    if (!shared.has(id)) shared.set(id, make());
    return id;
  };
  const setUp = new Map<number, number>();
  for (const { setupKey, item } of base.items) setUp.set(setupKey, (setUp.get(setupKey) ?? 0) + item.count);
  const freight = new Map<string, number>();
  const bought = groups.map((group) => partsOf(group, bare, workings));
  for (const { paid } of bought)
    for (const [source, amount] of paid) freight.set(source, Math.min(amount, freight.get(source) ?? amount));
  const own = groups.map((group, at): OwnPiece => {
    const { items } = group;
    const { parts, plans, sums, paid } = bought[at]!;
    const places = new Set(items.flatMap(({ place }) => (place === undefined || base.off.has(place) ? [] : [place])));
    const closed = [...(places.size > 0 ? closure(workings.map, places) : [])].filter(
      (place) => !base.off.has(place) && !base.visit.open.has(place),
    );
    const firsts = items.filter(({ setupKey, takes }) => !setUp.has(setupKey) && takes.setup.high > 0);
    const needs = [
      ...closed.map((place) => need(`place ${place}`, () => piece([workings.openings[place]!.line], workings))),
      ...firsts.map((read) => need(`setup ${read.setupKey}`, () => piece([setupLine(read, 1, workings)], workings))),
      ...[...paid.keys()].map((source) => need(`freight ${source}`, () => freightPiece(freight.get(source)!, workings))),
    ];
    for (const [source, amount] of paid) sums[FREIGHT]! += amount - freight.get(source)!;
    const { labour, flat, flatPrices } = labourOf(group, moreSetups(items, setUp, base, workings), workings);
    return {
      group,
      sums: added(labour.sums, sums),
      timed: labour.timed,
      explained:
        labour.explained -
        flat.explained +
        Math.min(flatPrices, flat.explained) +
        pricedOf(plans.filter(isUsable).map(sourcingRisk)),
      plans,
      parts,
      needs: [...new Set(needs)],
    };
  });
  return { own, shared };
}

interface OwnLabour {
  readonly labour: Piece;
  /** Of it, what is not charged by time. */
  readonly flat: Piece;
  readonly flatPrices: number;
}

/** The same whatever it is added to, but for set-ups on more boards. By the group's first item. */
const ownLabour = new WeakMap<ReadItem, OwnLabour>();

function labourOf({ items }: Group, more: readonly LabourLine[], workings: Workings): OwnLabour {
  const ready = more.length === 0 ? ownLabour.get(items[0]!) : undefined;
  if (ready) return ready;
  const lines = [...items.map((read) => labourLine(read, 0, workings)), ...more];
  const made = {
    labour: piece(lines, workings),
    flat: piece(
      lines.filter((line) => !isByTime(line)),
      workings,
    ),
    flatPrices: lines.reduce((sum, { flat, line }) => sum + (flat ? line.amount : 0), 0),
  };
  if (more.length === 0) ownLabour.set(items[0]!, made);
  return made;
}

function piece(lines: readonly LabourLine[], workings: Workings): Piece {
  const sums = noSums(workings);
  for (const line of lines) addLabour(sums, line, workings);
  const timed = lines.map((line) => timedRisk(line, workings));
  return { sums, timed, explained: worthOf(atBench(timed), workings.rateBook) };
}

function freightPiece(amount: number, workings: Workings): Piece {
  const sums = noSums(workings);
  sums[FREIGHT] = amount;
  return { sums, timed: [], explained: 0 };
}

/** A set-up by itself. */
function setupLine(read: ReadItem, count: number, workings: Workings): LabourLine {
  const { grade, rateBook } = workings;
  const { attended, ratePerHour, id } = read.labourClass.is;
  const bare = times(read.takes.setup, count);
  const time = attended ? graded(bare, grade.is.labourPercent) : bare;
  const { why: _, ...line } = labourLine(read, 0, workings).line;
  const charged = chargedMilli(time, rateBook);
  return {
    times: time,
    attended,
    labourClass: id,
    line: { ...line, id: `setup:${read.setupKey}`, minutes: fromMilli(charged), amount: priceMilli(charged, ratePerHour) },
  };
}

/** Work on the unit as a whole is set up on each counted board: what a group adds beyond the one that it shares. */
function moreSetups(
  items: readonly ReadItem[],
  setUp: ReadonlyMap<number, number>,
  { visit }: Priced,
  workings: Workings,
): LabourLine[] {
  const boards = visit.boards.reduce((sum, { count }) => sum + count, visit.toOpen.length);
  if (boards <= 1) return [];
  const counts = new Map<number, { read: ReadItem; count: number }>();
  for (const read of items)
    if (read.place === undefined && read.takes.setup.high > 0)
      counts.set(read.setupKey, { read, count: (counts.get(read.setupKey)?.count ?? 0) + read.item.count });
  return [...counts.values()].flatMap(({ read, count }) => {
    const before = setUp.get(read.setupKey) ?? 0;
    const most = boardsSetUp(read, boards, workings.rateBook);
    const more = Math.min(most, before + count) - Math.max(1, Math.min(most, before));
    return more > 0 ? [setupLine(read, more, workings)] : [];
  });
}

/** What a price has of each part, with no work named. */
const counts = new WeakMap<Priced, ReadonlyMap<string, readonly PartNeed[]>>();

const kindOf = ({ type, kind }: PartNeed): string => (kind === undefined ? `type ${type}` : `kind ${kind}`);

function needsIn(priced: Priced): ReadonlyMap<string, readonly PartNeed[]> {
  const ready = counts.get(priced);
  if (ready) return ready;
  const made = new Map<string, PartNeed[]>();
  for (const need of priced.needs) {
    // What has a price of its own is told from others by its item.
    const bare = { ...need, items: need.price ? need.items : [] };
    made.set(kindOf(need), [...(made.get(kindOf(need)) ?? []), bare]);
  }
  counts.set(priced, made);
  return made;
}

function plansFor(extra: readonly Bought[], { freight }: PartsPrice, { purse }: Bare, workings: Workings): readonly KindPlan[] {
  const paid = new Map(purse.paid);
  for (const { reason = "", amount } of freight) paid.set(reason, Math.max(paid.get(reason) ?? 0, amount));
  return workings.planner(extra, { paid, taken: new Map(purse.taken) });
}

/** Parts by themselves, and with a group's, by its first item: of most options the same. */
const beside = new WeakMap<ReadItem, Map<string, { readonly before: PartsPrice; readonly parts: PartsPrice }>>();

function pricedBeside(first: ReadItem, needs: readonly PartNeed[], same: readonly PartNeed[], workings: Workings) {
  const known = beside.get(first) ?? new Map<string, { readonly before: PartsPrice; readonly parts: PartsPrice }>();
  beside.set(first, known);
  const key = same.map((need) => `${need.count} ${need.items.join()}`).join(";");
  const made = known.get(key) ?? { before: workings.parts(same), parts: workings.parts([...same, ...needs]) };
  known.set(key, made);
  return made;
}

/** What a group's parts add where those of the base are bought already; `paid`: freight beyond what is paid. */
function partsOf({ items }: Group, bare: Bare, workings: Workings) {
  const sums = noSums(workings);
  const needs = needsOf(items);
  if (needs.length === 0) return { parts: workings.parts([]), plans: [], sums, paid: new Map<string, number>() };
  const base = needsIn(bare.priced);
  const same = [...new Set(needs.map(kindOf))].flatMap((kind) => base.get(kind) ?? []);
  const { before, parts } = pricedBeside(items[0]!, needs, same, workings);
  const freight = new Map(bare.priced.parts.freight.map(({ reason = "", amount }) => [reason, amount]));
  const more = parts.freight.map(({ reason = "", amount }) => [reason, amount - (freight.get(reason) ?? 0)] as const);
  const extra = extraBought({ parts }, { parts: before }, workings);
  const plans = extra.length === 0 ? [] : plansFor(extra, parts, bare, workings);
  const planned = new Set([...bare.plans, ...plans].filter(isUsable).map(({ bought }) => bought.kind.id));
  const take = ({ lines, pulls }: PartsPrice, sign: number) => {
    for (const { sort, part, amount } of lines)
      if (sort === "part") sums[PARTS]! += sign * amount;
      else if (!planned.has(part?.kind ?? "")) sums[OTHERS]! += sign * amount;
    for (const pull of pulls) addLabour(sums, pullLine(pull, workings.rateBook, workings.book), workings, sign);
  };
  take(parts, 1);
  take(before, -1);
  return { parts, plans, sums, paid: new Map(more.filter(([, amount]) => amount > 0)) };
}
