/** What to fetch for one job: by assembly, and by part with what is there of it. */
import type { EstimateInput, OfferState, PartKind } from "../input.js";
import type { Sheet, Warning } from "../sheet.js";
import { type Claim, type JobPart, jobParts, type LoggedPieces, partKey, stillWanted } from "./jobParts.js";

export interface PickPart {
  readonly part: JobPart["part"];
  readonly kind?: PartKind;
  /** Pieces of the work as charged, and of possible work that was found. */
  readonly needed: number;
  /** Used up, by the work log. */
  readonly used: number;
  readonly wanted: number;
  /** Pieces of possible work not found so far; not among those needed. */
  readonly ifFound: number;
  /** On the shelf, whoever they are for; absent: counted by type only. */
  readonly stock?: number;
  /** Of those wanted: on the shelf for this job, ordered, and neither. */
  readonly fromStock: number;
  readonly onOrder: number;
  readonly toGet: number;
  /** As the sheet bought them. */
  readonly from: readonly { readonly source: string; readonly state: OfferState; readonly pieces: number }[];
  /** What the sheet says of putting this part in place of the old one, and of its offers. */
  readonly remarks: readonly Warning[];
}

export interface PickTake {
  readonly item: string;
  readonly part: JobPart["part"];
  readonly count: number;
  readonly used: number;
  /** Only if it is found to be needed; absent once anything of it was logged. */
  readonly ifFound?: true;
}

export interface PickList {
  readonly parts: readonly PickPart[];
  /** In removal order; work on the unit as a whole comes last. */
  readonly assemblies: readonly { readonly id?: string; readonly name: string; readonly takes: readonly PickTake[] }[];
}

/** `claims`: this job's, of the shop's order list. `stock` by kind. */
export function pickList(
  input: EstimateInput,
  sheet: Sheet,
  logged: LoggedPieces,
  claims: readonly Claim[],
  stock: ReadonlyMap<string, number>,
): PickList {
  const parts = jobParts(input, sheet);
  return {
    parts: parts.map((part) => pickPart(part, input, sheet, logged, claims, stock)),
    assemblies: byAssembly(parts, input, sheet, logged),
  };
}

function pickPart(
  job: JobPart,
  { kinds = [], offers = [] }: EstimateInput,
  { warnings }: Sheet,
  logged: LoggedPieces,
  claims: readonly Claim[],
  stock: ReadonlyMap<string, number>,
): PickPart {
  const { part, takes, buys } = job;
  const kind = kinds.find(({ id }) => id === part.kind);
  const claim = claims.find((one) => partKey(one.part) === partKey(part));
  const due = takes.filter(({ item, ifFound }) => !ifFound || logged.has(item));
  const items = new Set(takes.map(({ item }) => item));
  const [needed, all] = [due, takes].map((some) => sum(some.map(({ count }) => count))) as [number, number];
  return {
    part,
    ...(kind && { kind, stock: stock.get(kind.id) ?? 0 }),
    needed,
    used: sum(takes.map(({ item }) => logged.get(item) ?? 0)),
    wanted: stillWanted(job, logged),
    ifFound: all - needed,
    fromStock: claim?.fromStock ?? 0,
    onOrder: claim?.onOrder ?? 0,
    toGet: claim?.toGet ?? 0,
    from: buys.flatMap(({ offer: id, pieces }) => {
      const offer = offers.find((one) => one.id === id);
      return offer ? [{ source: offer.source, state: offer.state, pieces }] : [];
    }),
    remarks: warnings.filter(
      (warning) =>
        ("item" in warning && items.has(warning.item)) ||
        (!("item" in warning) && "part" in warning && warning.part === part.name),
    ),
  };
}

function byAssembly(
  parts: readonly JobPart[],
  { map }: EstimateInput,
  { access }: Sheet,
  logged: LoggedPieces,
): PickList["assemblies"] {
  const found = new Map<string | undefined, PickTake[]>();
  for (const { part, takes } of parts)
    for (const { item, count, assembly, ifFound } of takes) {
      const open = ifFound && !logged.has(item);
      const take = { item, part, count, used: logged.get(item) ?? 0, ...(open && { ifFound: true as const }) };
      found.set(assembly, [...(found.get(assembly) ?? []), take]);
    }
  const names = new Map(map?.assemblies.map(({ id, name }) => [id, name]));
  const order = access.removal.map(({ id }) => id);
  // What is not opened, such as a part reached from outside, comes after what is.
  const place = (id: string | undefined) => {
    const at = id === undefined ? -1 : order.indexOf(id);
    return at >= 0 ? at : order.length + (id === undefined ? 1 : 0);
  };
  return [...found]
    .map(([id, takes]) => ({
      ...(id !== undefined && { id }),
      name: id === undefined ? "The unit as a whole" : (names.get(id) ?? id),
      takes,
    }))
    .sort((a, b) => place(a.id) - place(b.id));
}

const sum = (numbers: readonly number[]): number => numbers.reduce((total, number) => total + number, 0);
