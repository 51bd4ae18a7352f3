/**
 * The shop's own work, own parts and services as entries of the rate book and the catalogue, so that all else reads one sort of work. An
 * input that has none is given back as it is, and so is one that was resolved: stored estimates keep their bytes.
 */
import type {
  Certainty,
  EstimateInput,
  Minor,
  Offer,
  Operation,
  OwnPart,
  OwnWork,
  PartKind,
  PartType,
  RateBook,
  WorkItem,
} from "./input.js";

const NO_TIME = { low: 0, likely: 0, high: 0 };
const OWN_WORDS = { basis: "measured here", note: "the shop's own words" } as const;

/** Reserved: no entry of the rate book or the catalogue may bear one. */
export const ownId = (item: string): string => `own:${item}`;
const serviceId = (service: string): string => `service:${service}`;
export const isReserved = (id: string): boolean => /^(own|service):/.test(id);
/** Of the work behind an item that is a service; `at` from 0. */
export const behindId = (item: string, at: number): string => `${item}/${at + 1}`;

/** What stands for a work item's work in a book that was read (`readBook`), whether or not the item was resolved. */
export const operationIdOf = ({ id, operation, own, service }: WorkItem): string =>
  operation ?? (own ? ownId(id) : service === undefined ? "" : serviceId(service));

/** What the item's counts consume, as a book that was read knows it, whether or not the item was resolved. */
export const partOf = ({ id, part }: Pick<WorkItem, "id" | "part">): KnownPart | undefined =>
  part && "own" in part ? { kind: ownId(id) } : part;
export type KnownPart = { readonly type: string } | { readonly kind: string };

/** What only `resolve` writes: of no shape that comes in from outside. */
interface ResolvedItem extends WorkItem {
  readonly part?: KnownPart;
  /** In the shop's own words, as it was given. */
  readonly ownPart?: OwnPart;
  /** Id of the item that was sold. */
  readonly behind?: string;
}
/** How many entries were the rate book's own: the others have no place in it that a person could look up. */
interface OwnEntries {
  readonly operations: number;
  readonly partTypes: number;
}
interface ResolvedBook extends RateBook {
  readonly given?: OwnEntries;
}
export const resolvedFrom = ({ given, operations, partTypes }: ResolvedBook): OwnEntries =>
  given ?? { operations: operations.length, partTypes: partTypes.length };

interface FlatOperation extends Operation {
  readonly price?: Minor;
  readonly taxCategory?: string;
}
interface BroughtKind extends PartKind {
  readonly broughtByOwner?: true;
}

/** The sold item that this work is behind, so that it bears no charge. */
export const behindOf = (item: WorkItem): string | undefined => (item as ResolvedItem).behind;
/** The part in the shop's own words, if it is one. */
export const ownPartOf = (item: WorkItem | ResolvedItem): OwnPart | undefined =>
  item.part && "own" in item.part ? item.part.own : (item as ResolvedItem).ownPart;
/** What one count costs, whatever time it takes. */
export const flatPriceOf = (operation: FlatOperation): Minor | undefined => operation.price;
export const taxCategoryOf = (operation: FlatOperation): string | undefined => operation.taxCategory;
export const isBrought = (kind: BroughtKind): boolean => kind.broughtByOwner === true;

/** Whether its own words or its service stand as an operation already. */
export function isResolved({ operation, ...item }: WorkItem): boolean {
  return operation !== undefined && operation === operationIdOf(item) && (item.own !== undefined || item.service !== undefined);
}

const asked = ({ operation, own, service, part }: WorkItem): boolean =>
  (operation === undefined && (own !== undefined || service !== undefined)) || (part !== undefined && "own" in part);

const resolved = new WeakMap<EstimateInput, EstimateInput>();

/** Never throws: what is wrong with own words is for the check to say. */
export function resolve(input: EstimateInput): EstimateInput {
  if (!input.items.some(asked)) return input;
  const ready = resolved.get(input);
  if (ready) return ready;
  const made = make(input);
  resolved.set(input, made);
  return made;
}

interface Made {
  readonly operations: Map<string, FlatOperation>;
  readonly types: PartType[];
  readonly kinds: BroughtKind[];
  readonly offers: Offer[];
}

function make(input: EstimateInput): EstimateInput & { readonly rateBook: ResolvedBook } {
  const { rateBook, kinds = [], offers = [] } = input;
  const services = new Map((rateBook.services ?? []).map((service) => [service.id, service]));
  const made: Made = { operations: new Map(), types: [], kinds: [], offers: [] };
  const items = input.items.flatMap((item): ResolvedItem[] => {
    const given = withOwnPart(item, input, made);
    if (given.operation !== undefined) return [given];
    const operation = operationIdOf(given);
    if (given.own) {
      made.operations.set(operation, ownOperation(operation, given.own, rateBook));
      return [{ ...given, operation }];
    }
    const service = services.get(given.service ?? "");
    if (!service) return [given];
    made.operations.set(operation, {
      ...ownOperation(operation, { name: service.name, price: service.price }, rateBook),
      source: service.source,
    });
    const certainty = together(given);
    const behind = service.work.map((work, at): ResolvedItem => {
      const id = behindId(given.id, at);
      const does = work.operation ?? `${operation}/${at + 1}`;
      if (work.operation === undefined && work.own) made.operations.set(does, ownOperation(does, work.own, rateBook));
      return {
        id,
        ...(given.assembly !== undefined && { assembly: given.assembly }),
        operation: does,
        count: work.count * given.count,
        ...(work.part && { part: work.part }),
        certainty,
        ...(work.minutes && { minutes: work.minutes }),
        behind: given.id,
      };
    });
    return [{ ...given, operation, certainty }, ...behind];
  });
  const more = <T>(list: readonly T[], added: readonly T[]): readonly T[] => (added.length === 0 ? list : [...list, ...added]);
  return {
    ...input,
    items,
    ...(made.kinds.length > 0 && { kinds: more(kinds, made.kinds) }),
    ...(made.offers.length > 0 && { offers: more(offers, made.offers) }),
    rateBook: {
      ...rateBook,
      operations: more(rateBook.operations, [...made.operations.values()]),
      partTypes: more(rateBook.partTypes, made.types),
      given: resolvedFrom(rateBook),
    },
  };
}

/** A service and the work behind it are chosen, or turn up, as one. */
const together = ({ id, certainty }: WorkItem): Certainty =>
  certainty.is === "planned" || certainty.group !== undefined ? certainty : { ...certainty, group: id };

const ownOperation = (
  id: string,
  { name, labourClass, minutes, price, taxCategory, hazards }: OwnWork,
  rateBook: RateBook,
): FlatOperation => ({
  id,
  name,
  sort: "other",
  labourClass: labourClass ?? rateBook.accessClass,
  setup: NO_TIME,
  unit: minutes ?? NO_TIME,
  ...(hazards && { hazards }),
  source: OWN_WORDS,
  ...(price !== undefined && { price }),
  ...(taxCategory !== undefined && { taxCategory }),
});

function withOwnPart(item: WorkItem, { asOf, currency }: EstimateInput, made: Made): ResolvedItem {
  const { part, ...rest } = item;
  if (!part || !("own" in part)) return item as ResolvedItem;
  const { own } = part;
  const id = ownId(item.id);
  const type = own.type ?? id;
  if (own.type === undefined)
    made.types.push({ id, name: own.name, family: "other", minutes: NO_TIME, typicalCost: own.cost ?? 0, source: OWN_WORDS });
  made.kinds.push({ id, type, name: own.name, ...(own.broughtByOwner && { broughtByOwner: true }) });
  if (!own.broughtByOwner) made.offers.push(ownOffer(id, own, asOf, currency));
  return { ...rest, part: { kind: id }, ownPart: own };
}

const ownOffer = (id: string, own: OwnPart, on: string, currency: string): Offer => ({
  id,
  kind: id,
  source: own.source ?? "",
  on,
  currency,
  price: (own.cost ?? 0) * (own.packSize ?? 1),
  packSize: own.packSize ?? 1,
  ...(own.minimumPacks !== undefined && { minimumPacks: own.minimumPacks }),
  leadDays: own.leadDays ?? 0,
  state: own.state ?? "new",
  ...(own.shareGood !== undefined && { shareGood: own.shareGood }),
});
