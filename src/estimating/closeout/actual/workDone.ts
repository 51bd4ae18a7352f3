/** The time of a log by the sheet's lines. Opening that was not told apart is shared over what was opened, by the time allowed. */
import { type Book, readBook } from "../../book.js";
import type { EstimateInput, LabourClass, Minor } from "../../input.js";
import { priceMilli, toMilli } from "../../money/scales.js";
import { split } from "../../money/split.js";
import { operationIdOf, ownId, partOf } from "../../resolve.js";
import type { Line, Sheet } from "../../sheet.js";
import type { Covered } from "../log/covered.js";
import { classWorked, type PersonRates, spent } from "../log/spent.js";
import type { PartNamed, Work, WorkLog } from "../log/workLog.js";

/** Time at one rate. */
export interface Portion {
  readonly labourClass: LabourClass;
  /** Minor units per hour. */
  readonly rate: Minor;
  /** Thousandths of a minute. */
  readonly milli: number;
}

export interface WorkDone {
  /** As the sheet names it, without money. */
  readonly line: Line;
  readonly agreed: boolean;
  /** Of the class of the operation, or of access; minor units per hour. */
  readonly usualRate: Minor;
  readonly portions: readonly Portion[];
}

export const milliDone = ({ portions }: Pick<WorkDone, "portions">): number =>
  portions.reduce((sum, { milli }) => sum + milli, 0);

export const amountDone = ({ portions }: Pick<WorkDone, "portions">): Minor =>
  portions.reduce((sum, { milli, rate }) => sum + priceMilli(milli, rate), 0);

/** By line id, in the order of the log. `names` has all that the log names. Work that is not agreed stands apart from agreed work. */
export function workDone(
  log: WorkLog,
  { lines: charged, behind = [] }: Pick<Sheet, "lines" | "behind">,
  names: EstimateInput,
  covered: Covered,
  rates?: PersonRates,
): readonly WorkDone[] {
  const book = readBook(names);
  const liner = workLiner(names);
  const sheetLines = [...charged, ...behind];
  const lines = new Map(sheetLines.map((line) => [line.id, line]));
  const named = new Set(log.time.map(({ work }) => lineIdOf(work)));
  const opened = sheetLines.filter(({ sort }) => sort === "access");
  const shared = opened.some(({ id }) => !named.has(id)) ? opened.filter(({ id }) => !named.has(id)) : opened;
  const weights = shared.map(({ minutes = 0 }) => toMilli(minutes));
  const usual = (work: Work) => classWorked({ work }, names, book)?.ratePerHour ?? 0;
  const done = new Map<string, Omit<WorkDone, "portions"> & { portions: Map<string, Portion> }>();
  for (const entry of log.time) {
    const { milli, labourClass, rate } = spent(entry, names, book, rates);
    const agreed = covered.workNot(entry.work) === undefined;
    const whole = entry.work.is === "access" && entry.work.assembly === undefined && shared.length > 0;
    const parts = whole ? split(milli, weights) : [milli];
    parts.forEach((part, index) => {
      const id = whole ? shared[index]!.id : lineIdOf(entry.work);
      const key = `${agreed} ${id}`;
      const start = () => ({
        line: { ...liner(entry.work), ...bare(lines.get(id)), id },
        agreed,
        usualRate: usual(entry.work),
        portions: new Map<string, Portion>(),
      });
      const row = done.get(key) ?? start();
      done.set(key, row);
      const at = `${rate} ${labourClass.id}`;
      row.portions.set(at, { labourClass, rate, milli: part + (row.portions.get(at)?.milli ?? 0) });
    });
  }
  return [...done.values()].map((row) => ({ ...row, portions: [...row.portions.values()] }));
}

/** What a sheet's line says of the work, without what it says of time and money. */
function bare(line: Line | undefined): Partial<Line> {
  if (!line) return {};
  const { amount: _, minutes: __, unitPriceE4: ___, why: ____, labourClass: _____, ...rest } = line;
  return rest;
}

/** The id of the sheet's line for it. Opening that was not told apart has no line of its own. */
export const lineIdOf = (work: Work): string =>
  work.is === "item"
    ? `labour:${work.id}`
    : work.is === "pull"
      ? `pull:${work.offer}`
      : work.assembly === undefined
        ? "access"
        : `access:${work.assembly}`;

export type PartName = NonNullable<Line["part"]>;

/** The part as the catalogue names it; ids it does not have stand as they are. */
export function partName(part: PartNamed, { kinds, partTypes }: Book): PartName {
  if ("own" in part) return { type: "", kind: ownId(part.own), name: part.own };
  if ("type" in part) return { type: part.type, name: partTypes.get(part.type)?.is.name ?? part.type };
  const kind = kinds.get(part.kind)?.is;
  return { type: kind?.type ?? "", kind: part.kind, name: kind?.name ?? part.kind };
}

/** A piece of work as a line of a sheet names it, without minutes or money. For work of an input that has passed the check; anything unknown is left out. */
function workLiner(input: EstimateInput): (work: Work) => Line {
  const book = readBook(input);
  const items = new Map(input.items.map((item) => [item.id, item]));
  const assemblies = new Map((input.map?.assemblies ?? []).map(({ id, name }) => [id, { id, name }]));
  const offers = new Map((input.offers ?? []).map((offer) => [offer.id, offer]));
  return (work) => {
    const item = work.is === "item" ? items.get(work.id) : undefined;
    const assembly = assemblies.get((work.is === "access" ? work.assembly : item?.assembly) ?? "");
    const operation = item && book.operations.get(operationIdOf(item))?.is;
    const offer = work.is === "pull" ? offers.get(work.offer) : undefined;
    const part = (item && partOf(item)) ?? (offer && { kind: offer.kind });
    return {
      id: lineIdOf(work),
      sort: work.is === "access" ? "access" : work.is === "pull" ? "donor pull" : (operation?.sort ?? "other"),
      taxClass: "labour",
      taxCategory: input.rateBook.tax.labour,
      ...(assembly && { assembly }),
      ...(operation && { operation: { id: operation.id, name: operation.name } }),
      ...(part && { part: partName(part, book) }),
      amount: 0,
      from: [
        ...(item ? [{ is: "item", id: item.id } as const] : []),
        ...(assembly ? [{ is: "assembly", ...assembly } as const] : []),
        ...(operation ? [{ is: "operation", id: operation.id, name: operation.name } as const] : []),
        ...(offer ? [{ is: "offer", id: offer.id, source: offer.source, on: offer.on } as const] : []),
      ],
    };
  };
}
