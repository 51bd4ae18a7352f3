/** The parts of what was agreed: by kind, or by type where no kind is named, with the work that takes them and where the sheet bought them. */
import type { CurrencyCode, EstimateInput, Minor } from "../input.js";
import { isBrought, type KnownPart, ownPartOf, partOf, resolve } from "../resolve.js";
import type { Line, PartResult, Sheet } from "../sheet.js";

export interface JobPart {
  readonly part: NonNullable<Line["part"]>;
  readonly takes: readonly Take[];
  /** Offers that the sheet bought from, in its order. */
  readonly buys: readonly { readonly offer: string; readonly pieces: number }[];
  /** In the shop's own words: of this job alone, and of no list. */
  readonly own?: { readonly source?: string; readonly cost: Minor };
}

/** A work item that takes so many pieces. */
interface Take {
  readonly item: string;
  readonly assembly?: string;
  readonly count: number;
  /** Possible work: its pieces are wanted once it is found to be needed. */
  readonly ifFound?: true;
}

/** `part` of a work item names one of these. */
export const partKey = ({ type, kind }: { readonly type: string; readonly kind?: string }): string =>
  kind === undefined ? `type ${type}` : `kind ${kind}`;

/** In the order of the sheet, then what only possible work takes. Options that were not chosen take nothing. */
export function jobParts(input: EstimateInput, { parts }: Pick<Sheet, "parts">): JobPart[] {
  const { items, kinds = [], rateBook } = resolve(input);
  const brought = new Set(kinds.filter(isBrought).map(({ id }) => id));
  const found = new Map<
    string,
    { part: JobPart["part"]; takes: Take[]; buys: { offer: string; pieces: number }[]; own?: JobPart["own"] }
  >();
  const at = (part: JobPart["part"]) => {
    const made = found.get(partKey(part)) ?? { part, takes: [], buys: [] };
    found.set(partKey(part), made);
    return made;
  };
  for (const result of parts) {
    const { buys } = at(named(result));
    if (result.offer !== undefined) buys.push({ offer: result.offer, pieces: result.needed });
  }
  const nameOf = (part: KnownPart): JobPart["part"] => {
    const kind = "kind" in part ? kinds.find(({ id }) => id === part.kind) : undefined;
    const type = "kind" in part ? (kind?.type ?? "") : part.type;
    const name = kind?.name ?? rateBook.partTypes.find(({ id }) => id === type)?.name ?? type;
    return { type, ...(kind && { kind: kind.id }), name };
  };
  for (const item of items) {
    const { id, count, certainty, assembly } = item;
    const part = partOf(item);
    if (!part || ("kind" in part && brought.has(part.kind)) || count === 0 || (certainty.is === "optional" && !certainty.chosen))
      continue;
    const takes = { item: id, count, ...(assembly !== undefined && { assembly }) };
    const needed = at(nameOf(part));
    needed.takes.push({ ...takes, ...(certainty.is === "if found" && { ifFound: true as const }) });
    const own = ownPartOf(item);
    if (own) needed.own = { ...(own.source !== undefined && { source: own.source }), cost: own.cost ?? 0 };
  }
  return [...found.values()].flatMap(({ own, ...rest }) => (rest.takes.length > 0 ? [{ ...rest, ...(own && { own }) }] : []));
}

const named = ({ type, kind, name }: PartResult) => ({ type, ...(kind !== undefined && { kind }), name });

/** What of a job's work was logged: pieces used up, by work item. An item that was worked on without parts has 0. */
export type LoggedPieces = ReadonlyMap<string, number>;

/** Pieces of a part still wanted. Possible work counts once anything of it was logged. */
export const stillWanted = ({ takes }: JobPart, logged: LoggedPieces): number =>
  takes
    .filter(({ item, ifFound }) => !ifFound || logged.has(item))
    .reduce((sum, { item, count }) => sum + Math.max(0, count - (logged.get(item) ?? 0)), 0);

/** A job's need of one part. */
export interface OpenNeed extends Pick<JobPart, "part" | "buys" | "own"> {
  readonly job: string;
  readonly currency: CurrencyCode;
  /** Pieces still wanted, 0 or more. */
  readonly pieces: number;
}

export interface Claim extends OpenNeed {
  readonly fromStock: number;
  readonly onOrder: number;
  readonly toGet: number;
}

/** Counts by part kind; a part counted by type only has none. */
export interface Supplies {
  readonly stock: ReadonlyMap<string, number>;
  readonly onOrder: ReadonlyMap<string, number>;
}

/** Who gets what is there: the shelf first, then what is on order, in the order of the jobs. What is left is to get. Claims by part, in the order the parts are first needed; needs of nothing are left out. */
export function claimsOf(needs: readonly OpenNeed[], { stock, onOrder }: Supplies): Claim[][] {
  const left = { stock: new Map(stock), onOrder: new Map(onOrder) };
  const take = (from: Map<string, number>, kind: string | undefined, wanted: number): number => {
    if (kind === undefined) return 0;
    const taken = Math.min(wanted, Math.max(0, from.get(kind) ?? 0));
    from.set(kind, (from.get(kind) ?? 0) - taken);
    return taken;
  };
  const byPart = new Map<string, Claim[]>();
  for (const need of needs) {
    if (need.pieces === 0) continue;
    const fromStock = take(left.stock, need.part.kind, need.pieces);
    const ordered = take(left.onOrder, need.part.kind, need.pieces - fromStock);
    const claim = { ...need, fromStock, onOrder: ordered, toGet: need.pieces - fromStock - ordered };
    const key = need.own ? `${need.job} ${partKey(need.part)}` : partKey(need.part);
    const claims = byPart.get(key);
    if (claims) claims.push(claim);
    else byPart.set(key, [claim]);
  }
  return [...byPart.values()];
}
