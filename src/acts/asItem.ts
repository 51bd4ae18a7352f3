import { same } from "../estimating/agreement/canonical.js";
import { replacementIn } from "../estimating/book.js";
import type {
  Certainty,
  EstimateInput,
  Hazard,
  Minor,
  OriginalPart,
  OwnWork,
  PartKind,
  PartPrice,
  ThreePoint,
  WorkItem,
} from "../estimating/input.js";
import { ratesTaken } from "../estimating/money/landed.js";
import type { ShopRows } from "../records/shopRows.js";
import { plainOf, shift } from "../wording/decimal.js";
import { foundByName, type Named, nameFor } from "../wording/named.js";
import type { Fault } from "./fault.js";
import { type LineRow, type Names, parted, type Said } from "./line.js";

/** A part without a kind of work is replaced; work without a place is for the whole unit; no count is one. */
export function itemSaid(
  said: Said,
  id: string,
  names: Names,
  input: EstimateInput,
  kinds: readonly PartKind[],
): WorkItem | Fault {
  const certainty = certaintyOf(said);
  if (!certainty) return { pointer: "/chance", name: "key missing", detail: "Chance of it is missing; give a number." };
  const known = said.part === undefined ? undefined : foundByName(said.part, names.part)?.is;
  const all = [...(input.kinds ?? []), ...kinds];
  const part = partSaid(said, known, all);
  const minutes = minutesSaid(said);
  const work = said.work === undefined ? undefined : foundByName(said.work, names.work)?.is;
  const assembly = said.where === undefined ? undefined : foundByName(said.where, names.where)?.id;
  const own = said.own === undefined ? undefined : ownSaid(said, said.own, names);
  const original = fittedSaid(said, names);
  return {
    id,
    ...(assembly && { assembly }),
    ...(work && "service" in work
      ? { ...work, ...(own && { own }), ...(minutes && { minutes }), ...(part && { part }) }
      : work === undefined && own
        ? { own: { ...own, ...(minutes && { minutes }) } }
        : {
            operation: work?.operation ?? replacementIn(input.rateBook, part, all),
            ...(own && { own }),
            ...(minutes && { minutes }),
          }),
    count: said.count ?? 1,
    ...(part && { part }),
    ...(said.partCost !== undefined && said.ownPart === undefined && { partPrice: priceSaid(said, said.partCost) }),
    ...{ certainty, ...(said.reason !== undefined && { reason: said.reason }), ...(original && { original }) },
  };
}

function ownSaid({ labourClass, hazards, price }: Said, name: string, names: Names): OwnWork {
  const of = labourClass === undefined ? undefined : foundByName(labourClass, names.labourClass)?.id;
  return {
    name,
    ...(of !== undefined && { labourClass: of }),
    ...(price !== undefined && { price }),
    ...(hazards !== undefined && { hazards: parted(hazards) as Hazard[] }),
  };
}

function fittedSaid(said: Said, names: Names): OriginalPart | undefined {
  const type = said.fittedType === undefined ? undefined : foundByName(said.fittedType, names.fittedType)?.id;
  const original: OriginalPart = {
    ...(type !== undefined && { type }),
    ...(said.fittedValue !== undefined && { value: said.fittedValue }),
    ...(said.fittedVolts !== undefined && { ratedVolts: said.fittedVolts }),
    ...(said.workingVolts !== undefined && { workingVolts: said.workingVolts }),
    ...(said.fittedTolerance !== undefined && { tolerancePercent: said.fittedTolerance }),
    ...(said.fittedAudio !== undefined && { audioGrade: said.fittedAudio }),
  };
  return Object.keys(original).length > 0 ? original : undefined;
}

/** The other way: what an item says, each in its field; things by name where that is enough. */
export function rowOf({ id, ...item }: WorkItem, names: Names, { currency }: Pick<EstimateInput, "currency">): LineRow {
  const { assembly, operation, own, service, part, partPrice, certainty, reason, original } = item;
  const { low, likely, high } = own?.minutes ?? item.minutes ?? {};
  const work = operation === undefined ? service && { service } : { operation };
  const bought = part && "own" in part ? part.own : undefined;
  const known = bought ? bought.type !== undefined && { type: bought.type } : (part as PartNamed | undefined);
  const row: { [K in keyof LineRow]: LineRow[K] | undefined } = {
    ...{ id, currency, reason, count: item.count },
    where: assembly && nameFor(assembly, names.where),
    work: work && nameIn(names.work, work),
    part: known ? nameIn(names.part, known) : undefined,
    ...{ own: own?.name, price: own?.price, minutes: likely, minutesLow: low, minutesHigh: high },
    labourClass: own?.labourClass && nameFor(own.labourClass, names.labourClass),
    hazards: own?.hazards?.join("; "),
    ...{ ownPart: bought?.name, partCost: bought ? bought.cost : partPrice?.cost, partReason: partPrice?.reason },
    ...{
      partSource: bought ? bought.source : partPrice?.source,
      partDays: bought ? bought.leadDays : partPrice?.leadDays,
      partState: bought?.state,
    },
    ...{ partPack: bought?.packSize, partMinimum: bought?.minimumPacks, partBrought: bought?.broughtByOwner },
    partGood: hundredfold(bought?.shareGood),
    certainty: certainty.is,
    chance: certainty.is === "if found" ? hundredfold(certainty.probability) : undefined,
    group: certainty.is === "planned" ? undefined : certainty.group,
    ...(certainty.is === "optional" ? { chosen: certainty.chosen, refused: certainty.refused } : {}),
    fittedType: original?.type && nameFor(original.type, names.fittedType),
    ...{ fittedValue: original?.value, fittedVolts: original?.ratedVolts, workingVolts: original?.workingVolts },
    ...{ fittedTolerance: original?.tolerancePercent, fittedAudio: original?.audioGrade },
  };
  return Object.fromEntries(Object.entries(row).filter(([, value]) => value !== undefined && value !== "")) as LineRow;
}

type PartNamed = { readonly kind: string } | { readonly type: string };

/** By name where that finds the same again, else by id. */
function nameIn(among: readonly (Named & { readonly is: object })[], wanted: object): string {
  const [id] = Object.values(wanted) as [string];
  const name = among.find(({ is }) => same(is, wanted))?.name;
  const found = name === undefined ? undefined : foundByName(name, among)?.is;
  return found && same(found, wanted) ? name! : id;
}

const moved = (value: number, places: number): number => Number(shift(plainOf(value), places));
const hundredth = (percent: number): number => moved(percent, -2);
const hundredfold = (share: number | undefined): number | undefined => (share === undefined ? undefined : moved(share, 2));

/** A part in own words takes the time of what it is like. */
function partSaid(
  said: Said,
  known: { kind: string } | { type: string } | undefined,
  kinds: readonly PartKind[],
): WorkItem["part"] {
  if (said.ownPart === undefined) return known;
  const type = known && ("kind" in known ? kinds.find(({ id }) => id === known.kind)?.type : known.type);
  return {
    own: {
      name: said.ownPart,
      ...(type !== undefined && { type }),
      ...(said.partBrought && { broughtByOwner: true as const }),
      ...(said.partCost !== undefined && { cost: said.partCost }),
      ...(said.partSource !== undefined && { source: said.partSource }),
      ...(said.partDays !== undefined && { leadDays: said.partDays }),
      ...(said.partState !== undefined && { state: said.partState }),
      ...(said.partPack !== undefined && { packSize: said.partPack }),
      ...(said.partMinimum !== undefined && { minimumPacks: said.partMinimum }),
      ...(said.partGood !== undefined && { shareGood: hundredth(said.partGood) }),
    },
  };
}

const priceSaid = ({ partReason = "", partSource, partDays }: Said, cost: Minor): PartPrice => ({
  cost,
  reason: partReason,
  ...(partSource !== undefined && { source: partSource }),
  ...(partDays !== undefined && { leadDays: partDays }),
});

/** One figure is the same at best and at worst. */
function minutesSaid({ minutes, minutesLow, minutesHigh }: Said): ThreePoint | undefined {
  if (minutes === undefined) return undefined;
  return { low: minutesLow ?? minutes, likely: minutes, high: minutesHigh ?? minutes };
}

function certaintyOf({ certainty = "planned", chance, chosen = false, refused, group }: Said): Certainty | undefined {
  const grouped = group === undefined ? {} : { group };
  if (certainty === "planned") return { is: certainty };
  if (certainty === "optional") return { is: certainty, chosen, ...grouped, ...(refused !== undefined && { refused }) };
  return chance === undefined ? undefined : { is: certainty, probability: hundredth(chance), ...grouped };
}

/** With what the catalogue knows of a part that the job had no use for. */
export function withKind(
  input: EstimateInput,
  { kinds, offers, exchange }: Pick<ShopRows, "kinds" | "offers" | "exchange">,
  { part }: WorkItem,
): EstimateInput {
  const wanted = part && "kind" in part ? part.kind : undefined;
  if (wanted === undefined || input.kinds?.some(({ id }) => id === wanted)) return input;
  const known = new Set(input.offers?.map(({ id }) => id));
  const taken = [...(input.offers ?? []), ...offers.filter(({ id, kind }) => kind === wanted && !known.has(id))];
  const rates = ratesTaken({ ...input, offers: taken }, exchange, input.exchange);
  return {
    ...input,
    kinds: [...(input.kinds ?? []), ...kinds.filter(({ id }) => id === wanted)],
    offers: taken,
    ...(rates && { exchange: rates }),
  };
}
