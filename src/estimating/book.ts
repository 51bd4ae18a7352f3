/** The rate book and the catalogue looked up by id. The first of a repeated id counts; the check refuses the others. */
import type {
  AccessStandard,
  ConditionGrade,
  EstimateInput,
  FastenerStandard,
  LabourClass,
  Operation,
  PartKind,
  PartType,
  RateBook,
  Service,
  WorkItem,
} from "./input.js";
import { resolve } from "./resolve.js";

/** An entry and its place in its list, for JSON pointers. */
export interface Entry<T> {
  readonly is: T;
  readonly at: number;
}

export type Index<T> = ReadonlyMap<string, Entry<T>>;

export interface Book {
  readonly classes: Index<LabourClass>;
  readonly grades: Index<ConditionGrade>;
  readonly fasteners: Index<FastenerStandard>;
  /** By `standardKey`. */
  readonly standards: Index<AccessStandard>;
  readonly partTypes: Index<PartType>;
  readonly operations: Index<Operation>;
  readonly kinds: Index<PartKind>;
  readonly services: readonly Service[];
  /** Ids. */
  readonly taxCategories: ReadonlySet<string>;
}

export const standardKey = (of: { readonly size: string; readonly mounting: string }): string => `${of.size}, ${of.mounting}`;

export function indexed<T>(list: readonly T[], key: (entry: T) => string): Index<T> {
  const index = new Map<string, Entry<T>>();
  list.forEach((entry, at) => {
    if (!index.has(key(entry))) index.set(key(entry), { is: entry, at });
  });
  return index;
}

/** With the work and parts of the shop's own words. */
export function readBook(input: EstimateInput): Book {
  const { rateBook, kinds = [] } = resolve(input);
  const byId = ({ id }: { readonly id: string }) => id;
  return {
    classes: indexed(rateBook.labourClasses, byId),
    grades: indexed(rateBook.grades, byId),
    fasteners: indexed(rateBook.fasteners, ({ kind }) => kind),
    standards: indexed(rateBook.accessStandards, standardKey),
    partTypes: indexed(rateBook.partTypes, byId),
    operations: indexed(rateBook.operations, byId),
    kinds: indexed(kinds, byId),
    services: rateBook.services ?? [],
    taxCategories: new Set(rateBook.tax.categories.map(({ id }) => id)),
  };
}

/** An entry that the check has found already. Throws if it is not there: our own fault. */
export function known<T>(index: Index<T>, id: string): Entry<T> {
  const entry = index.get(id);
  if (!entry) throw new Error(`'${id}' was not checked.`);
  return entry;
}

/** The work that a part is taken for where none is named. `kinds`: those that it may be of. */
export function replacementIn(
  { operations, partTypes }: RateBook,
  part?: WorkItem["part"],
  kinds: readonly PartKind[] = [],
): string {
  const named = part && ("own" in part ? part.own : part);
  const type = named && ("kind" in named ? kinds.find(({ id }) => id === named.kind)?.type : named.type);
  const own = partTypes.find(({ id }) => id === type)?.replacedBy;
  return own ?? operations.find(({ sort }) => sort === "replacement")?.id ?? "replace";
}
