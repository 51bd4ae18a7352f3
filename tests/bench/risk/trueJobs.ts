/**
 * Jobs as they may really go, drawn: which faults turn up, what they open and set up (once), how long each line takes (jstat), how the unit is, which pieces are
 * bad; steps, least charge and sundries by what turned up. Nothing of src/estimating/risk takes part, nor of how prices take possible work apart.
 */
import jStat from "jstat";
import type { EstimateInput } from "../../../src/estimating/input.js";
import type { ReadItem } from "../../../src/estimating/labour/readItem.js";
import type { Times } from "../../../src/estimating/labour/times.js";
import { bareOf, netOf } from "../../../src/estimating/pricing/bare.js";
import { price, visitNow } from "../../../src/estimating/pricing/price.js";
import { type Workings, workingsOf } from "../../../src/estimating/pricing/workings.js";
import { closure } from "../../../src/estimating/teardown/map.js";
import { normals, seeded } from "../../estimating/risk/simulation.js";

const NODES = 512;
const tables = new Map<string, Float64Array>();

/** Quantiles of a three-point time in money, at k / NODES. */
function tableOf({ low, likely, high }: Times, ratePerHour: number): Float64Array {
  const rate = ratePerHour / 60_000;
  if (high <= low) return new Float64Array(NODES + 1).fill(low * rate);
  const alpha = 1 + (4 * (likely - low)) / (high - low);
  const key = alpha.toFixed(9);
  const unit =
    tables.get(key) ??
    Float64Array.from({ length: NODES + 1 }, (_, k) =>
      k === 0 ? 0 : k === NODES ? 1 : jStat.beta.inv(k / NODES, alpha, 6 - alpha),
    );
  tables.set(key, unit);
  return unit.map((share) => (low + (high - low) * share) * rate);
}

const mean = ({ low, likely, high }: Times): number => (low + 4 * likely + high) / 6;
const plus = (a: Times, b: Times): Times => ({ low: a.low + b.low, likely: a.likely + b.likely, high: a.high + b.high });

interface Item {
  readonly chance: number;
  readonly rate: number;
  readonly classAt: number;
  readonly attended: boolean;
  /** Places that must be off, and its set-up. */
  readonly places: readonly number[];
  readonly setup: number;
  readonly alone: Float64Array;
  readonly first: Float64Array;
  /** Thousandths of a minute, expected. */
  readonly milliAlone: number;
  readonly milliFirst: number;
  readonly parts: number;
  readonly freight: readonly (readonly [source: number, amount: number])[];
  readonly draws: readonly { readonly priced: number; readonly upTo: readonly number[]; readonly amounts: readonly number[] }[];
}

export interface TrueJobs {
  readonly totals: Float64Array;
  /** What the same sets come to as they are charged, by this model and by the engine: they must agree. */
  readonly sets: readonly { readonly here: number; readonly engine: number }[];
}

/** Each possible item alone in its group, parts of one kind in one item, all sold by the piece: what the shapes have. */
export function trueJobs(input: EstimateInput, jobs: number, seed: number): TrueJobs {
  const workings = workingsOf(input);
  const { rateBook, map, openings } = workings;
  const sources = new Map<string, number>();
  const setups = new Map<number, number>();
  const byRank = [...workings.items].sort((a, b) => a.rank - b.rank);
  const certain = byRank.filter(({ item }) => item.certainty.is === "planned");
  const items = byRank.map((read) => itemOf(read, certain, workings, sources, setups));
  const placeTables = openings.map(({ line }) => tableOf(line.times, rateOf(workings, line.labourClass)));
  const placeMilli = openings.map(({ line }) => mean(line.times));
  const accessRate = rateOf(workings, rateBook.accessClass);
  const accessAt = rateBook.labourClasses.findIndex(({ id }) => id === rateBook.accessClass);
  const uniform = seeded(seed);
  const normal = normals(seeded(~seed));
  const sigma = Math.sqrt(Math.log(1 + (workings.grade.is.spreadPercent / 100) ** 2));
  const { billing, labourClasses, parts } = rateBook;
  const step = billing.incrementMinutes * 1000;
  const milli = new Float64Array(labourClasses.length);
  const off = new Int32Array(map.assemblies.length).fill(-1);
  const setUp = new Int32Array(setups.size).fill(-1);
  const paid = new Float64Array(sources.size);
  const draw = (table: Float64Array): number => {
    const at = uniform() * NODES;
    const node = Math.floor(at);
    return table[node]! + (at - node) * (table[node + 1]! - table[node]!);
  };
  const charged = (labourMean: number, freight: number, partsCost: number): number => {
    let labour = labourMean;
    if (step > 0)
      for (let at = 0; at < milli.length; at++) {
        const over = Math.round(milli[at]!) % step;
        if (over > 0) labour += ((step - over) * labourClasses[at]!.ratePerHour) / 60_000;
      }
    if (labourMean > 0) labour = Math.max(labour, billing.minimumCharge);
    const sundries = (labour * parts.sundries.percentOfLabour) / 100;
    return labour + partsCost + freight + Math.min(sundries, parts.sundries.cap ?? sundries);
  };
  let net = 0;
  const one = (job: number, has: (item: Item, at: number) => boolean): number => {
    let [hours, labourMean, freight, cost, drawn] = [0, 0, 0, 0, 0];
    milli.fill(0);
    paid.fill(0);
    for (let at = 0; at < items.length; at++) {
      const each = items[at]!;
      if (!has(each, at)) continue;
      for (const place of each.places)
        if (off[place] !== job) {
          off[place] = job;
          hours += draw(placeTables[place]!);
          milli[accessAt]! += placeMilli[place]!;
          labourMean += (placeMilli[place]! * accessRate) / 60_000;
        }
      const first = setUp[each.setup] !== job;
      setUp[each.setup] = job;
      const took = draw(first ? each.first : each.alone);
      if (each.attended) hours += took;
      const minutes = first ? each.milliFirst : each.milliAlone;
      if (each.attended) milli[each.classAt]! += minutes;
      labourMean += (minutes * each.rate) / 60_000;
      cost += each.parts;
      for (const [source, amount] of each.freight)
        if (paid[source]! < amount) {
          freight += amount - paid[source]!;
          paid[source] = amount;
        }
      for (const { priced, upTo, amounts } of each.draws) {
        const u = uniform();
        let which = 0;
        while (which < upTo.length - 1 && u >= upTo[which]!) which++;
        drawn += amounts[which]! - priced;
      }
    }
    net = charged(labourMean, freight, cost);
    let benchMean = 0;
    for (let at = 0; at < milli.length; at++) benchMean += (milli[at]! * labourClasses[at]!.ratePerHour) / 60_000;
    const factor = sigma > 0 ? Math.exp(sigma * normal() - (sigma * sigma) / 2) : 1;
    return net - benchMean + factor * hours + drawn;
  };
  const totals = new Float64Array(jobs);
  for (let job = 0; job < jobs; job++) totals[job] = one(job, ({ chance }) => chance >= 1 || uniform() < chance);
  const sets = Array.from({ length: 12 }, (_, set) => {
    const has = items.map(({ chance }) => chance >= 1 || uniform() < 0.5);
    one(jobs + set, (_item, at) => has[at]!);
    const counted = price(
      workings,
      byRank.filter((_read, at) => has[at]),
      visitNow(workings.input, map),
    );
    return { here: net, engine: netOf(bareOf(counted, workings).priced.totals) };
  });
  return { totals, sets };
}

const rateOf = ({ rateBook }: Workings, id: string): number => rateBook.labourClasses.find((each) => each.id === id)!.ratePerHour;

function itemOf(
  read: ReadItem,
  certain: readonly ReadItem[],
  workings: Workings,
  sources: Map<string, number>,
  setups: Map<number, number>,
): Item {
  const { item, takes, labourClass, place, setupKey } = read;
  const { attended, ratePerHour } = labourClass.is;
  const percent = attended ? workings.grade.is.labourPercent / 100 : 1;
  const scaled = (time: Times): Times => ({ low: time.low * percent, likely: time.likely * percent, high: time.high * percent });
  const each = scaled({
    low: takes.each.low * item.count,
    likely: takes.each.likely * item.count,
    high: takes.each.high * item.count,
  });
  const first = plus(each, scaled(takes.setup));
  const at = <K>(map: Map<K, number>, key: K): number => {
    if (!map.has(key)) map.set(key, map.size);
    return map.get(key)!;
  };
  const alone = (items: readonly ReadItem[]) => bareOf(price(workings, items, visitNow(workings.input, workings.map)), workings);
  const bare = alone([read]);
  // What is bought for planned work has paid its freight.
  const { plans } = alone(certain.includes(read) ? certain : [...certain, read]);
  const sum = (amounts: readonly number[]) => amounts.reduce((total, amount) => total + amount, 0);
  return {
    chance: item.certainty.is === "if found" ? item.certainty.probability : 1,
    rate: ratePerHour,
    classAt: labourClass.at,
    attended,
    places: place === undefined ? [] : [...closure(workings.map, [place])],
    setup: at(setups, setupKey),
    alone: tableOf(each, ratePerHour),
    first: tableOf(first, ratePerHour),
    milliAlone: mean(each),
    milliFirst: mean(first),
    parts: sum(bare.priced.lines.filter(({ taxClass }) => taxClass === "parts").map(({ amount }) => amount)),
    freight: bare.priced.parts.freight.map(({ reason = "", amount }) => [at(sources, reason), amount] as const),
    draws: plans
      .filter(({ bought, plan }) => plan.buys.length > 0 && bought.kind === takes.part?.kind)
      .map(({ bought, plan }) => {
        let reached = 0;
        return {
          priced: bought.cost,
          upTo: plan.outcomes.map(({ probability }) => {
            reached += probability;
            return reached;
          }),
          amounts: plan.outcomes.map(({ amount }) => amount),
        };
      }),
  };
}
