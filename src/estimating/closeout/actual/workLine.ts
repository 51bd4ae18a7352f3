/** A piece of work as a line of a sheet names it, without minutes or money. */
import { type Book, readBook } from "../../book.js";
import type { EstimateInput, WorkItem } from "../../input.js";
import type { Line } from "../../sheet.js";
import type { Work } from "../log/workLog.js";

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
export function partName(part: NonNullable<WorkItem["part"]>, { kinds, partTypes }: Book): PartName {
  if ("type" in part) return { type: part.type, name: partTypes.get(part.type)?.is.name ?? part.type };
  const kind = kinds.get(part.kind)?.is;
  return { type: kind?.type ?? "", kind: part.kind, name: kind?.name ?? part.kind };
}

/** For work of an input that has passed the check; anything unknown is left out. */
export function workLiner(input: EstimateInput): (work: Work) => Line {
  const book = readBook(input);
  const items = new Map(input.items.map((item) => [item.id, item]));
  const assemblies = new Map((input.map?.assemblies ?? []).map(({ id, name }) => [id, { id, name }]));
  const offers = new Map((input.offers ?? []).map((offer) => [offer.id, offer]));
  return (work) => {
    const item = work.is === "item" ? items.get(work.id) : undefined;
    const assembly = assemblies.get((work.is === "access" ? work.assembly : item?.assembly) ?? "");
    const operation = book.operations.get(item?.operation ?? "")?.is;
    const offer = work.is === "pull" ? offers.get(work.offer) : undefined;
    const part = item?.part ?? (offer && { kind: offer.kind });
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
